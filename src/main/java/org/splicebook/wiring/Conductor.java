package org.splicebook.wiring;

/** The three things a load point needs. */
public enum Conductor {
    HOT,
    NEUTRAL,
    GROUND
}
