package org.splicebook.loadflow;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.splicebook.record.Sighting;
import org.splicebook.record.SourceSystem;

/** What the figures of a solution hang on. */
final class Assumptions {
    private static final double WYE_FROM = 200;
    private static final double WYE_TO = 216;

    private final Solution s;
    private final List<Assumption> all = new ArrayList<>();

    private Assumptions(Solution s) {
        this.s = s;
    }

    /** {@return them, the most general first; things of which the same is taken stand together} */
    static List<Assumption> of(Solution s) {
        Assumptions a = new Assumptions(s);
        if (!s.settled()) {
            a.add("", "Loads of constant power or current did not come to rest: these figures are not to be trusted.");
        }
        a.physics();
        s.circuit().sources().forEach(a::source);
        a.wye();
        a.loads();
        a.add("", "Nothing is tapped inside a wall, and what is not recorded is not there.");
        a.silences();
        return List.copyOf(a.all);
    }

    private void add(String about, String said) {
        all.add(new Assumption(about, said));
    }

    private void physics() {
        Physics p = s.state().physics();
        if (p.ideal()) {
            add("", "Wires, connections, contacts and sources have no resistance, but for what is given in ohms.");
            return;
        }
        add(
                "",
                said("Wires at %.0f °C, ", p.celsius())
                        + (p.reactance() ? "with" : "without")
                        + said(" reactance at %.0f Hz; ", Admittances.hertz(s.circuit(), p))
                        + said(
                                "%.1f milliohm in each connection, %.0f in each switch contact.",
                                Tables.number("contact", "arm") * 1000, Tables.number("contact", "switch") * 1000));
    }

    private void source(CircuitSource source) {
        SourceModel m = s.model(source);
        SourceSystem.Pole p = source.system().poles().get(0);
        add(
                source.name(),
                said(
                                "%s, %.1f V from each leg to neutral without load; ",
                                source.system().word(), p.volts() * m.voltsFactor())
                        + (m.equals(SourceModel.IDEAL)
                                ? "no impedance."
                                : said(
                                        "%.4f ohm from leg to neutral, %.4f ohm in each conductor to the house.",
                                        m.legToNeutral().magnitude(), m.drop().magnitude())));
    }

    /** Near 208 V between two hots means a wye supply, where a shared neutral of two legs does not cancel. */
    private void wye() {
        boolean splitPhase =
                s.circuit().sources().stream().anyMatch(x -> x.system() == SourceSystem.SPLIT_PHASE_120_240);
        for (Sighting seen : s.circuit().house().sightings()) {
            if (splitPhase && seen.seen() instanceof Sighting.Volts v) {
                double volts = v.volts().base();
                if (volts > WYE_FROM && volts < WYE_TO) {
                    add(
                            seen.id(),
                            said("%.0f V was read between %s and %s: ", volts, v.from(), v.to())
                                    + "that means a wye supply, while the record says split phase and these figures follow the record.");
                }
            }
        }
    }

    private void loads() {
        Map<Load.Model, Integer> count = new LinkedHashMap<>();
        for (Loads.On on : s.loads()) {
            count.merge(on.load().model(), 1, Integer::sum);
        }
        List<String> said = new ArrayList<>();
        count.forEach((model, n) -> said.add(n + " " + word(model)));
        add("", said.isEmpty() ? "Nothing is on." : "Loads on: " + String.join(", ", said) + ".");
    }

    private static String word(Load.Model model) {
        return switch (model) {
            case OHMS -> "given in ohms";
            case IMPEDANCE -> "of constant impedance";
            case POWER -> "of constant power between 0.8 and 1.2 of nominal volts";
            case CURRENT -> "of constant current";
        };
    }

    /** What the record is silent about, things of which the same is taken together; what the case says is left out. */
    private void silences() {
        Map<String, List<String>> about = new LinkedHashMap<>();
        for (Assumption a : s.circuit().assumptions()) {
            boolean impedanceSaid =
                    s.state().sources().containsKey(a.about()) && a.said().startsWith("impedance");
            boolean electrodeSaid = Boolean.TRUE.equals(s.state().closed().get(a.about() + ".electrode"))
                    && a.said().startsWith("no grounding electrode");
            boolean saidByCase = impedanceSaid || electrodeSaid;
            if (!saidByCase) {
                List<String> names = about.computeIfAbsent(a.said(), k -> new ArrayList<>());
                if (!names.contains(a.about())) {
                    names.add(a.about());
                }
            }
        }
        about.forEach((said, names) -> add(String.join(", ", names), said));
    }

    private static String said(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }
}
