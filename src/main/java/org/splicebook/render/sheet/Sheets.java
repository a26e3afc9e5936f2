package org.splicebook.render.sheet;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.answer.Reply;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.Attachments;
import org.splicebook.record.Basis;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Place;
import org.splicebook.render.DirectoryText;
import org.splicebook.render.PanelDirectory;
import org.splicebook.render.drawing.Drawing;
import org.splicebook.render.drawing.DrawingKind;
import org.splicebook.render.drawing.Drawings;
import org.splicebook.render.sheet.Sheet.Block;
import org.splicebook.render.sheet.Sheet.Grid;
import org.splicebook.render.sheet.Sheet.Label;
import org.splicebook.render.sheet.Sheet.NewPage;
import org.splicebook.render.sheet.Sheet.Picture;
import org.splicebook.render.sheet.Sheet.Tag;
import org.splicebook.render.sheet.Sheet.Title;
import org.splicebook.render.sheet.Sheet.Words;
import org.splicebook.wiring.Sureness;

/** Makes sheets. */
public final class Sheets {
    private static final List<String> DONE = List.of("off", "locked", "tested");

    private final Source source;
    private final House house;
    private final PhotoBlocks photographs;

    private Sheets(Source source) {
        this.photographs = new PhotoBlocks(source);
        this.source = source;
        this.house = source.house();
    }

    /**
     * {@return a sheet}
     *
     * @param of of what: see {@link SheetKind#subject}
     * @throws ProblemException if the house has no such subject
     */
    public static Sheet of(Source source, SheetKind kind, String of) {
        Sheets s = new Sheets(source);
        return switch (kind) {
            case DIRECTORY -> s.directory(of);
            case STRIPS -> s.strips(of);
            case SHUT_OFF -> s.shutOff(of);
            case CARD -> s.cards(of);
            case LABELS ->
                s.sheet("Labels for receptacles", s.feedsBasis(), ReceptacleLabels.of(source), Leads.TO_A_WIRE);
            case READINGS -> s.sheet("Readings", s.feedsBasis(), PointTables.readings(source), Leads.TO_A_WIRE);
            case EMERGENCY -> s.emergency();
            case RECORD -> s.record(of);
        };
    }

    private Sheet sheet(String title, String sureness, List<Block> blocks, Leads leads) {
        return new Sheet(title, house.said(), source.stamp(), sureness, blocks, Caution.forWhat(leads));
    }

    /** How sure the feeds are that the record shows; what it only leaves possible is told where it stands. */
    private String feedsBasis() {
        return weakest(source.wiring().loadPoints().stream()
                .flatMap(l -> l.feeds().stream())
                .filter(f -> f.sureness() != Sureness.MAY)
                .map(f -> f.way().basis())
                .toList());
    }

    private static String weakest(List<Basis> all) {
        return all.stream()
                .reduce(Basis::weaker)
                .map(b -> "Weakest basis of what is shown: " + b.word() + ".")
                .orElse("Nothing here is shown by the record: its basis is not known.");
    }

    private Sheet directory(String panel) {
        if (!panel.isEmpty() && !house.panels().containsKey(panel)) {
            throw noSuch("panel", panel, List.copyOf(house.panels().keySet()));
        }
        return sheet("Panel directory", feedsBasis(), directories(panel), Leads.TO_A_SWITCH);
    }

    /** A label for each space, to be cut out and put beside its breaker. */
    private Sheet strips(String panel) {
        if (!panel.isEmpty() && !house.panels().containsKey(panel)) {
            throw noSuch("panel", panel, List.copyOf(house.panels().keySet()));
        }
        List<Block> blocks = new ArrayList<>();
        for (String name : panel.isEmpty() ? house.panels().keySet() : List.of(panel)) {
            PanelDirectory d = Objects.requireNonNull(PanelDirectory.of(source.wiring(), name));
            blocks.add(new Title("Panel " + name + ", " + d.place()));
            d.lines()
                    .forEach(l -> blocks.add(new Label(
                            List.of(l.rating().isEmpty() ? l.spaces() : l.spaces() + ", " + l.rating()), l.said())));
        }
        blocks.add(new Words(DirectoryText.CAUTION));
        return sheet("Labels for the spaces of a panel", feedsBasis(), blocks, Leads.TO_A_SWITCH);
    }

    private List<Block> directories(String panel) {
        List<Block> blocks = new ArrayList<>();
        for (String name : panel.isEmpty() ? house.panels().keySet() : List.of(panel)) {
            PanelDirectory d = Objects.requireNonNull(PanelDirectory.of(source.wiring(), name));
            blocks.add(new Title("Panel " + name + ", " + d.place()));
            if (!d.isWhole()) {
                blocks.add(new Words("Not every breaker is known to be listed."));
            }
            blocks.add(new Grid(
                    List.of("space", "breaker", "feeds", "beside overcurrent", "neutral shared with"),
                    d.lines().stream()
                            .map(l -> List.of(
                                    l.spaces(),
                                    dash(l.rating()),
                                    l.said(),
                                    dash(String.join(", ", l.protects())),
                                    dash(String.join(", ", l.sharesNeutral()))))
                            .toList()));
            blocks.add(new Words(DirectoryText.CAUTION));
            blocks.addAll(photographs.of(
                    "Photographs of panel " + name,
                    Attachments.parts(Objects.requireNonNull(house.panels().get(name)))));
        }
        return blocks;
    }

    /** An empty cell is to be written in, so what is nothing is a dash. */
    static String dash(String words) {
        return words.isBlank() ? "–" : words;
    }

    private Sheet shutOff(String box) {
        if (!house.boxes().containsKey(box) && !house.panels().containsKey(box)) {
            List<String> all = new ArrayList<>(house.boxes().keySet());
            all.addAll(house.panels().keySet());
            throw noSuch("box or panel", box, all);
        }
        return answered("Shut-off of " + box, "shut-off", Map.of("box", box));
    }

    private Sheet emergency() {
        return answered("Emergency: which throws", "dark", Map.of());
    }

    private Sheet answered(String title, String question, Map<String, String> parameters) {
        Reply reply = source.ask().apply(question, parameters);
        if (!(reply instanceof Answer a)) {
            throw new IllegalStateException("The question " + question + " is no answer.");
        }
        List<Block> blocks = new ArrayList<>(AnswerBlocks.of(a, DONE));
        blocks.add(new Title("Who did it"));
        blocks.add(new Grid(
                List.of("name", "date and time", "tester, and the live point it was proved on before and after"),
                List.of(List.of("", "", ""), List.of("", "", ""))));
        String sure = weakest(a.rows().stream().map(r -> r.basis()).toList());
        return new Sheet(title, house.said(), source.stamp(), sure, blocks, a.cautions());
    }

    private Sheet cards(String box) {
        if (!box.isEmpty() && !house.boxes().containsKey(box)) {
            throw noSuch("box", box, List.copyOf(house.boxes().keySet()));
        }
        List<Block> blocks = new ArrayList<>();
        List<Basis> sure = new ArrayList<>();
        for (String name : box.isEmpty() ? house.boxes().keySet() : List.of(box)) {
            if (!blocks.isEmpty()) {
                blocks.add(new NewPage());
            }
            card(name, blocks);
            Objects.requireNonNull(house.boxes().get(name)).joints().stream()
                    .map(Joint::about)
                    .forEach(p -> sure.add(p.basis() == null ? house.basis() : p.basis()));
        }
        return sheet(box.isEmpty() ? "Cards of all boxes" : "Card of a box", weakest(sure), blocks, Leads.TO_A_WIRE);
    }

    private void card(String box, List<Block> blocks) {
        Place place = house.places()
                .get(Objects.requireNonNull(house.boxes().get(box)).place());
        String where = place == null ? "place not recorded" : place.said();
        Drawing d = Drawings.of(DrawingKind.BOX, source.wiring(), box);
        blocks.add(new Title("Box " + box + ", " + where));
        blocks.add(new Words(d.said()));
        blocks.add(new Picture(d.svg(), d.width(), d.height()));
        blocks.add(new Tag(box, where + ". " + house.said() + ". Find the box by this code.", Square.of(box)));
        blocks.addAll(photographs.of(
                "Photographs of box " + box,
                Attachments.parts(Objects.requireNonNull(house.boxes().get(box)))));
    }

    private Sheet record(String by) {
        List<Block> blocks = new ArrayList<>();
        blocks.add(new Grid(
                List.of("handed over by", "date", "received by", "date"),
                List.of(List.of(by, by.isEmpty() ? "" : source.printed().toString(), "", ""))));
        blocks.addAll(directories(""));
        blocks.addAll(PointTables.points(source));
        blocks.addAll(PointTables.cables(source));
        house.cables()
                .values()
                .forEach(c -> blocks.addAll(photographs.of("Photographs of cable " + c.name(), Attachments.parts(c))));
        blocks.addAll(PointTables.sightings(source));
        for (String box : house.boxes().keySet()) {
            blocks.add(new NewPage());
            card(box, blocks);
        }
        return sheet("The wiring record", feedsBasis(), blocks, Leads.TO_A_WIRE);
    }

    private static ProblemException noSuch(String what, String name, List<String> all) {
        return new ProblemException(Problem.error(
                ProblemKind.NOT_FOUND,
                Where.field("of"),
                name.isEmpty()
                        ? "It was not said of which " + what + "."
                        : "The house has no " + what + " " + name + ".",
                all.isEmpty() ? "It has none." : "There are " + String.join(", ", all) + "."));
    }
}
