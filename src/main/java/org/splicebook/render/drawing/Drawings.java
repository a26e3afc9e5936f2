package org.splicebook.render.drawing;

import org.splicebook.problem.ProblemException;
import org.splicebook.wiring.Wiring;

/** Draws. */
public final class Drawings {
    private Drawings() {}

    /**
     * {@return a drawing}
     *
     * @param kind what to draw
     * @param wiring the house
     * @param subject of what: see {@link DrawingKind#subject}
     * @throws ProblemException if the house has no such subject
     */
    public static Drawing of(DrawingKind kind, Wiring wiring, String subject) {
        return switch (kind) {
            case CIRCUIT -> CircuitDrawing.of(wiring, subject);
            case BOX -> BoxDrawing.of(wiring, subject);
            case WAY -> WayDrawing.of(wiring, subject);
            case PANEL -> PanelDrawing.of(wiring, subject);
            case HOUSE -> HouseDrawing.of(wiring, subject);
            case REACH -> ReachDrawing.of(wiring, subject);
        };
    }
}
