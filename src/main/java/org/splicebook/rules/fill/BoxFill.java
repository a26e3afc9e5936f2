package org.splicebook.rules.fill;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Basis;

/**
 * How full a box is, by the count of one edition.
 *
 * @param box the box
 * @param edition the edition counted by
 * @param method the way of counting, in words
 * @param isPresumed whether the edition is later than what was checked, and is taken to count as the one before
 * @param verdict what comes out
 * @param items what each item counted
 * @param used the room that all takes
 * @param parts the volume of each part of the box, in words
 * @param capacity the room there is; null where it is not known
 * @param extras what would still fit
 * @param cures what would make room, best first; empty where nothing is needed
 * @param notKnown what is not known
 * @param assumed what was assumed
 * @param basis the weakest basis that it rests on
 */
public record BoxFill(
        String box,
        int edition,
        String method,
        boolean isPresumed,
        Verdict verdict,
        List<FillItem> items,
        Room used,
        List<String> parts,
        @Nullable Room capacity,
        List<Extra> extras,
        List<String> cures,
        List<String> notKnown,
        List<String> assumed,
        Basis basis) {
    /** What comes out. */
    public enum Verdict {
        /** Even the least that is in it is more than the most that it holds. */
        TOO_FULL,
        /** It may be too full: what is not known decides. */
        MAY_BE_TOO_FULL,
        /** Its volume is not known. */
        VOLUME_NOT_KNOWN,
        /** Even the most that may be in it fits. */
        FITS,
        /** No box, but joints in the open air. */
        NO_BOX,
        /** It holds wires of 4 AWG or larger, and is sized as a pull box (314.28). */
        PULL_BOX
    }

    /**
     * Something that one may want to add.
     *
     * @param say what it is
     * @param answer whether it would fit
     * @param used the room that all would take with it
     */
    public record Extra(String say, Fits answer, Room used) {}

    /** Whether something would fit. */
    public enum Fits {
        YES,
        NO,
        NOT_KNOWN
    }

    public BoxFill {
        items = List.copyOf(items);
        parts = List.copyOf(parts);
        extras = List.copyOf(extras);
        cures = List.copyOf(cures);
        notKnown = List.copyOf(notKnown);
        assumed = List.copyOf(assumed);
    }

    /** {@return what comes out, in a sentence} */
    public String said() {
        String holds = capacity == null ? "" : capacity.said();
        return switch (verdict) {
            case TOO_FULL ->
                box + " is too full: " + used.said() + " in3 in a box of " + holds + " in3, " + over() + " in3 over.";
            case MAY_BE_TOO_FULL -> box + " may be too full: " + used.said() + " in3 in a box of " + holds + " in3.";
            case VOLUME_NOT_KNOWN -> box + " needs " + used.said() + " in3; its volume is not known.";
            case FITS ->
                box + " has room: " + used.said() + " in3 in a box of " + holds + " in3, " + free() + " in3 free.";
            case NO_BOX ->
                box + " is no box: its joints are in the open air. There is nothing to fill, and a box is missing.";
            case PULL_BOX ->
                box
                        + " holds wires of 4 AWG or larger: it is sized as a pull box (314.28), which is not worked out here.";
        };
    }

    private String over() {
        Double most = capacity == null ? null : capacity.most();
        return Room.inches(used.least() - (most == null ? 0 : most));
    }

    private String free() {
        Double most = used.most();
        return Room.inches((capacity == null ? 0 : capacity.least()) - (most == null ? 0 : most));
    }
}
