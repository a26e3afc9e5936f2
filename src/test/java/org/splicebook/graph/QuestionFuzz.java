package org.splicebook.graph;

/** Lets other packages of the tests read question files. */
public final class QuestionFuzz {
    private QuestionFuzz() {}

    /** Reads one. */
    public static void parse(String text) {
        var unused = QuestionParser.parse("fuzz", "fuzz.cypher", text);
    }
}
