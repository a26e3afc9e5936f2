package org.splicebook.wiring;

/** How a thing is lost. */
public enum LossMode {
    /** A breaker, fuse or main switched off by hand: its poles, and those tied to it or in its pull-out. */
    OFF_BY_HAND,
    /** It trips: its poles if it trips in common, and its neutral if it opens that. A fuse: one pole, see {@link #ONE_POLE_OPEN}. */
    TRIPS,
    /** One pole fails open, or one fuse blows. */
    ONE_POLE_OPEN,
    /** A protective device's contacts open: those that its kind says. */
    GUARD_OPENS,
    /** A switch fails open: all its lever links. */
    SWITCH_FAILS,
    /** A joint parts all its members. */
    JOINT_LOST,
    /** One wire end comes out of its joint. */
    WIRE_END_LOST,
    /** A device is taken off its wires: the joints that its screws hold are parted, spliced ones are not. */
    DEVICE_OFF,
    /** A cable is cut: all its wires. */
    CABLE_CUT,
    /** A source is lost. */
    SOURCE_LOST
}
