package org.splicebook.store;

import org.splicebook.record.Property;

/** A property and the revision it is; the revision's house is the property's id. */
public record StoredProperty(Property property, Revision revision) {}
