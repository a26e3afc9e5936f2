package org.splicebook.rules;

import java.util.List;

/** How sure the words of a pack are. */
final class Mark {
    /** The marks that a pack may give: checked against a published page, from memory, unsure; nothing where no code speaks of it. */
    static final List<String> ALL = List.of("V", "M", "U", "");

    private Mark() {}

    /** {@return a mark as people are told it; nothing for what was checked} */
    static String said(String mark) {
        return switch (mark) {
            case "U" -> "unsure: read the printed code before it decides anything";
            case "M" -> "from memory: look the article up";
            default -> "";
        };
    }
}
