package org.splicebook.record;

/** What opens on overcurrent. */
public enum OvercurrentType {
    BREAKER,
    FUSE
}
