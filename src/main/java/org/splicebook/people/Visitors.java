package org.splicebook.people;

/** Who the work of this thread is for. Where nobody has come in, nobody is known. */
public final class Visitors {
    private static final ThreadLocal<Visitor> NOW = ThreadLocal.withInitial(() -> Visitor.NOBODY);

    private Visitors() {}

    /** {@return who this thread works for} */
    public static Visitor now() {
        return NOW.get();
    }

    /** From now on this thread works for them. */
    public static void enter(Visitor visitor) {
        NOW.set(visitor);
    }

    /** From now on this thread works for nobody. */
    public static void leave() {
        NOW.remove();
    }
}
