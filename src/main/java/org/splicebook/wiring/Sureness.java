package org.splicebook.wiring;

/** Over which worlds a relation holds, strongest first. */
public enum Sureness {
    /** In every completion and every lever position. */
    MUST,
    /** In every completion, in some lever position: the record shows it. */
    SHOWN,
    /** In some completion, in some lever position: it is possible. */
    MAY
}
