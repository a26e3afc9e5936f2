package org.splicebook.record;

import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * One dwelling's wiring record, validated: every name in it resolves.
 *
 * @param id its id: lower-case letters, digits and hyphens
 * @param name what people call it
 * @param built the year it was built
 * @param basis the default basis of everything in it
 * @param code what new work is judged by
 * @param area floor area
 * @param complete the default of what is wholly listed, for boxes and panels that say nothing
 * @param sources by name
 * @param places by name
 * @param panels by name
 * @param cables by name
 * @param boxes by name
 * @param sightings what was observed, oldest first
 * @param tests tests and their outcomes
 * @param accepted findings that were looked at and may stand
 * @param about age and note
 */
public record House(
        String id,
        @Nullable String name,
        @Nullable Integer built,
        Basis basis,
        @Nullable CodeBook code,
        @Nullable Quantity area,
        Set<Complete> complete,
        Map<String, Source> sources,
        Map<String, Place> places,
        Map<String, Panel> panels,
        Map<String, Cable> cables,
        Map<String, Box> boxes,
        List<Sighting> sightings,
        List<TestResult> tests,
        List<Acceptance> accepted,
        Provenance about) {
    public House {
        complete = Ordered.set(complete);
        sources = Ordered.map(sources);
        places = Ordered.map(places);
        panels = Ordered.map(panels);
        cables = Ordered.map(cables);
        boxes = Ordered.map(boxes);
        sightings = List.copyOf(sightings);
        tests = List.copyOf(tests);
        accepted = List.copyOf(accepted);
    }

    /** {@return the same record with these sightings instead of its own} */
    public House withSightings(List<Sighting> others) {
        return new House(
                id, name, built, basis, code, area, complete, sources, places, panels, cables, boxes, others, tests,
                accepted, about);
    }

    /** {@return the same record with these panels, cables and boxes instead of its own} */
    public House withParts(Map<String, Panel> itsPanels, Map<String, Cable> itsCables, Map<String, Box> itsBoxes) {
        return new House(
                id, name, built, basis, code, area, complete, sources, places, itsPanels, itsCables, itsBoxes,
                sightings, tests, accepted, about);
    }

    /** {@return the same record with these sources instead of its own} */
    public House withSources(Map<String, Source> others) {
        return new House(
                id, name, built, basis, code, area, complete, others, places, panels, cables, boxes, sightings, tests,
                accepted, about);
    }

    /** {@return the same record with that floor area} */
    public House withArea(Quantity another) {
        return new House(
                id, name, built, basis, code, another, complete, sources, places, panels, cables, boxes, sightings,
                tests, accepted, about);
    }

    /** {@return the same record with these acceptances instead of its own} */
    public House withAccepted(List<Acceptance> others) {
        return new House(
                id, name, built, basis, code, area, complete, sources, places, panels, cables, boxes, sightings, tests,
                others, about);
    }

    /** {@return the same record with these tests instead of its own} */
    public House withTests(List<TestResult> others) {
        return new House(
                id, name, built, basis, code, area, complete, sources, places, panels, cables, boxes, sightings, others,
                accepted, about);
    }

    /** {@return the same record under another id} */
    public House withId(String another) {
        return new House(
                another, name, built, basis, code, area, complete, sources, places, panels, cables, boxes, sightings,
                tests, accepted, about);
    }

    /** {@return the same record called otherwise} */
    public House withName(String another) {
        return new House(
                id, another, built, basis, code, area, complete, sources, places, panels, cables, boxes, sightings,
                tests, accepted, about);
    }

    /** {@return what people call it} */
    public String said() {
        return name == null ? id : name;
    }

    /** {@return whether the box says, or the house's default says, that this is wholly listed} */
    public boolean isComplete(Box box, Complete what) {
        return (box.complete() == null ? complete : box.complete()).contains(what);
    }

    /** {@return whether the panel says, or the house's default says, that this is wholly listed} */
    public boolean isComplete(Panel panel, Complete what) {
        return (panel.complete() == null ? complete : panel.complete()).contains(what);
    }
}
