package org.splicebook.wiring;

import java.util.Map;
import org.splicebook.record.Joint;
import org.splicebook.record.Panel;
import org.splicebook.record.Ref;
import org.splicebook.record.Source;

/**
 * The legs of a panel and the leg of each of its spaces.
 *
 * @param panel the panel
 * @param count how many legs it has
 */
public record PanelLegs(Panel panel, int count) {
    private static final String LETTERS = "abc";
    private static final int WHERE_NOTHING_TELLS = 2;

    /**
     * {@return the legs of a panel: as many as a supplying source has poles, or lugs are landed on; two where nothing tells}
     *
     * @param sources the sources of the house, by name
     */
    public static PanelLegs of(Map<String, Source> sources, Panel panel) {
        int legs = 0;
        for (String s : panel.supply()) {
            Source source = sources.get(s);
            if (source != null) {
                legs = Math.max(legs, source.system().poles().size());
            }
        }
        for (Joint j : panel.joints()) {
            for (Ref r : j.members()) {
                if (r instanceof Ref.PanelTerminal t && t.terminal().startsWith("line-")) {
                    legs = Math.max(legs, t.terminal().charAt(5) - '0');
                }
            }
        }
        for (String leg : panel.legs().values()) {
            legs = Math.max(legs, LETTERS.indexOf(leg) + 1);
        }
        return new PanelLegs(panel, legs == 0 ? WHERE_NOTHING_TELLS : legs);
    }

    /** {@return the letter of a leg, counted from 0: {@code a}, {@code b}, {@code c}} */
    public static String letter(int leg) {
        return String.valueOf(LETTERS.charAt(leg));
    }

    /** {@return the leg letter of a space: as the record says, or by rows: two spaces a row, legs in turn} */
    public String of(String space) {
        String said = panel.legs().get(space);
        if (said != null) {
            return said;
        }
        int digits = 0;
        while (digits < space.length() && Character.isDigit(space.charAt(digits))) {
            digits++;
        }
        int number = digits == 0 || digits > 4 ? 1 : Integer.parseInt(space.substring(0, digits));
        int row = (number + 1) / 2;
        return letter(Math.floorMod(row - 1, count));
    }
}
