package org.splicebook.survey;

import java.util.List;
import java.util.Map;
import org.splicebook.loadflow.LoadCase;
import org.splicebook.loadflow.LoadFlow;
import org.splicebook.loadflow.Variations;

/** The state in which people look for a fault: every switch so that as much as possible is lit. */
public final class UsualState {
    private UsualState() {}

    /**
     * {@return the state, one switch after the other put where most load points are live}
     *
     * @param base what is on
     */
    public static LoadCase of(LoadFlow flow, LoadCase.Base base) {
        LoadCase state = LoadCase.of(base);
        Faces faces = new Faces(flow.circuit());
        Variations first = Variations.of(flow, state, List.of());
        int most = live(first, faces);
        for (Map.Entry<String, List<String>> lever : flow.circuit().levers().entrySet()) {
            for (String position : lever.getValue().subList(1, lever.getValue().size())) {
                LoadCase other = state.lever(lever.getKey(), position);
                int live = live(first.in(other), faces);
                if (live > most) {
                    most = live;
                    state = other;
                }
            }
        }
        return state;
    }

    private static int live(Variations state, Faces faces) {
        Seen seen = Seen.of(state, Suspect.NONE, faces, null);
        return (int) seen.names().stream()
                .filter(n -> seen.at(n).level() != Symptom.Level.DEAD)
                .count();
    }
}
