package org.splicebook.render.sheet;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;

/** Sheets of a visit: the notice to whoever lives there, and what was done of it. */
public final class LetterSheet {
    /** What a notice leaves to others to say. */
    public static final String LAW =
            "How early a notice has to be given, in what form and to whom, who may enter and when, is for local law and the lease to"
                    + " say. Check them before this is given; where they differ from it, they are right.";

    private LetterSheet() {}

    /**
     * {@return a notice that work is to be done, and that power will be off; it names nobody}
     *
     * @param house what people call the house
     * @param stamp revision and date
     * @param said day, between, entry, who, as they were said; what is missing is left to be written in
     * @param off what should be off, as the record tells it
     */
    public static Sheet notice(String house, String stamp, Map<String, String> said, List<String> off) {
        List<Sheet.Block> blocks = new ArrayList<>();
        blocks.add(new Sheet.Words("To whoever lives in " + house));
        blocks.add(
                new Sheet.Words(
                        "Work on the electrical wiring is planned in this home. Someone has to enter, and power will be off in part or in whole."));
        Map<String, String> facts = new LinkedHashMap<>();
        facts.put("Day", said.getOrDefault("day", ""));
        facts.put("Between", said.getOrDefault("between", ""));
        facts.put("Who comes", said.getOrDefault("who", ""));
        facts.put("Entry", said.getOrDefault("entry", ""));
        facts.put("Questions to", "");
        facts.put("Given on, by", said.getOrDefault("noticed", ""));
        blocks.add(new Sheet.Grid(
                List.of("", ""),
                facts.entrySet().stream()
                        .map(e -> List.of(e.getKey(), e.getValue()))
                        .toList()));
        if (!off.isEmpty()) {
            blocks.add(new Sheet.Title("What should be off"));
            off.forEach(l -> blocks.add(new Sheet.Words(l)));
        }
        blocks.add(new Sheet.Title("Please"));
        blocks.add(
                new Sheet.Ticks(
                        false,
                        List.of(
                                "If anybody here depends on a medical device, on cooled medicine, or on a lift: say so before that day, to the"
                                        + " number above. Nothing is switched off before it is settled.",
                                "Save your work and switch off computers; leave the refrigerator shut.",
                                "Keep the way to the panel and to the outlets clear.",
                                "Do not switch any breaker on again that is off, locked or tagged.",
                                "Smoke and carbon monoxide alarms may be without mains power meanwhile: their batteries should be fresh.")));
        blocks.add(new Sheet.Words(LAW));
        return new Sheet(
                "Notice of work and of power off",
                house,
                stamp,
                "By the record; the house may differ.",
                blocks,
                List.of());
    }

    /**
     * {@return what was done of a visit}
     *
     * @param steps each step under its title: when and by whom, then its lines
     * @param since what the record of the house gained
     * @param open what is still to be tested
     */
    public static Sheet visit(
            String title,
            String house,
            String stamp,
            Map<String, List<String>> steps,
            List<String> since,
            List<String> open) {
        List<Sheet.Block> blocks = new ArrayList<>();
        steps.forEach((step, lines) -> {
            blocks.add(new Sheet.Title(step));
            lines.forEach(l -> blocks.add(new Sheet.Words(l)));
        });
        if (!since.isEmpty()) {
            blocks.add(new Sheet.Title("What the record gained since the work began"));
            since.forEach(l -> blocks.add(new Sheet.Words(l)));
        }
        blocks.add(new Sheet.Title("Still to be tested"));
        blocks.add(
                open.isEmpty() ? new Sheet.Words("Nothing that the record asks for.") : new Sheet.Ticks(false, open));
        return new Sheet(title, house, stamp, "As it was told.", blocks, Caution.forWhat(Leads.TO_A_SWITCH));
    }
}
