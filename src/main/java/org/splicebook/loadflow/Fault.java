package org.splicebook.loadflow;

/** A fault to insert. Nodes and branches are named as the package page says. */
public sealed interface Fault {
    /** A branch that is open: a broken wire, a wire end out of its joint ({@code K1.white@2}), the service neutral ({@code service.n}). */
    record Open(String branch) implements Fault {}

    /** A joint that has come apart: every arm of it is open. Named by a member: {@code bench:K1.white}. */
    record OpenJoint(String joint) implements Fault {}

    /** So many ohms more in a branch: a loose connection ({@code K1.white@2}), a corroded drop ({@code service.n}). */
    record Loose(String branch, double ohms) implements Fault {}

    /** Two nodes that touch through so many ohms: hot to ground, neutral to ground, leakage. */
    record Touch(String from, String to, double ohms) implements Fault {}

    /** A pole that sits on another leg's bus: {@code main.3} on {@code main.a}. */
    record OnLeg(String pole, String bus) implements Fault {}

    /** A contact that conducts whatever its lever or handle says: welded, bridged, or failed closed ({@code main.3}, {@code foot[com,a]}). */
    record Stuck(String contact) implements Fault {}

    /** {@return two nodes that touch without resistance} */
    static Fault bolted(String from, String to) {
        return new Touch(from, to, 0);
    }

    /** {@return a leak between two nodes that lets so many amperes pass at so many volts} */
    static Fault leak(String from, String to, double amperes, double volts) {
        return new Touch(from, to, volts / amperes);
    }
}
