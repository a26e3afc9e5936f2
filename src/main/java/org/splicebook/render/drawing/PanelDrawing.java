package org.splicebook.render.drawing;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Breaker;
import org.splicebook.record.Complete;
import org.splicebook.record.Panel;
import org.splicebook.render.PanelDirectory;
import org.splicebook.wiring.PanelLegs;
import org.splicebook.wiring.Wiring;

/** A panel as it hangs: odd spaces left, even ones right, each with its leg and what it serves. */
final class PanelDrawing {
    private static final double CELL = 330;
    private static final double PAD = 8;

    private final Wiring wiring;
    private final Panel panel;
    private final PanelLegs legs;
    private final boolean isWhole;

    private PanelDrawing(Wiring wiring, Panel panel) {
        this.wiring = wiring;
        this.panel = panel;
        this.legs = PanelLegs.of(wiring.house().sources(), panel);
        this.isWhole = wiring.house().isComplete(panel, Complete.BREAKERS);
    }

    static Drawing of(Wiring wiring, String name) {
        Panel panel = wiring.house().panels().get(name);
        if (panel == null) {
            throw Parts.missing(DrawingKind.PANEL, name);
        }
        return new PanelDrawing(wiring, panel).draw();
    }

    private Drawing draw() {
        Sketch s = new Sketch(wiring.house());
        double y = Sketch.MARGIN + Sketch.LARGE;
        String title = "Panel " + panel.name() + ", " + Parts.place(wiring.house(), panel.place());
        s.bold(Sketch.MARGIN, y, Sketch.LARGE, title);
        y += Sketch.LINE + 4;
        for (String line : head()) {
            s.text(Sketch.MARGIN, y, Sketch.PLAIN, line);
            y += Sketch.LINE;
        }
        Map<Integer, List<String>> cells = cells();
        int last = cells.keySet().stream().mapToInt(Integer::intValue).max().orElse(0);
        for (int row = 1; row <= last; row += 2) {
            double h = Math.max(height(cells.get(row)), height(cells.get(row + 1)));
            cell(s, row, cells.get(row), Sketch.MARGIN, y, h);
            cell(s, row + 1, cells.get(row + 1), Sketch.MARGIN + CELL + 6, y, h);
            y += h;
        }
        y += Sketch.LINE + 4;
        for (String tie : ties()) {
            s.text(Sketch.MARGIN, y, Sketch.PLAIN, tie);
            y += Sketch.LINE;
        }
        StringBuilder said = new StringBuilder(String.join(" ", head()));
        cells.forEach((space, lines) -> said.append(" Space ")
                .append(space)
                .append(": ")
                .append(String.join("; ", lines))
                .append('.'));
        return s.done(title, said + " " + String.join(" ", ties()));
    }

    private List<String> head() {
        List<String> lines = new ArrayList<>();
        lines.add(
                panel.main() == null
                        ? "No main in it: main lugs only."
                        : "Main: " + panel.main().poles() + " poles, "
                                + Parts.rating(panel.main().rating()) + ", "
                                + panel.main().position().name().toLowerCase(Locale.ROOT) + ".");
        lines.add(panel.spaces() == null ? "How many spaces it has is not known." : panel.spaces() + " spaces.");
        if (!isWhole) {
            lines.add("Not every breaker is known to be listed: a space without one here may hold one.");
        }
        return lines;
    }

    private Map<Integer, List<String>> cells() {
        Map<Integer, List<String>> cells = new LinkedHashMap<>();
        int most = panel.spaces() == null ? 0 : panel.spaces();
        for (Breaker b : panel.breakers().values()) {
            for (String space : b.spaces()) {
                most = Math.max(most, number(space));
            }
        }
        for (int n = 1; n <= most; n++) {
            List<String> lines = new ArrayList<>();
            for (Breaker b : panel.breakers().values()) {
                for (String space : b.spaces()) {
                    if (number(space) == n) {
                        lines.addAll(lines(b, space));
                    }
                }
            }
            cells.put(n, lines.isEmpty() ? List.of(isWhole ? "free" : "nothing recorded here") : lines);
        }
        return cells;
    }

    private List<String> lines(Breaker b, String space) {
        List<String> lines = new ArrayList<>();
        String half = space.equals(String.valueOf(number(space))) ? "" : space + ": ";
        String poles = b.spaces().size() == 1 ? "" : ", one handle over " + b.key();
        lines.add(half + Parts.rating(b.rating()) + poles + ", leg " + legs.of(space)
                + (b.position() == Breaker.Position.ON
                        ? ""
                        : ", found " + b.position().name().toLowerCase(Locale.ROOT)));
        if (!space.equals(b.spaces().get(0))) {
            lines.add("as space " + b.spaces().get(0));
            return lines;
        }
        b.protects()
                .forEach(p ->
                        lines.add("with " + p.name().toLowerCase(Locale.ROOT).replace('_', '-') + " protection"));
        if (b.label() != null) {
            lines.addAll(Sketch.wrap("Directory: " + b.label(), Sketch.SMALL, CELL - 60));
        }
        List<String> serves = new ArrayList<>(Parts.serves(wiring, panel.name() + "." + b.key()));
        PanelDirectory.panelsBehind(wiring.house(), panel, b).forEach(p -> serves.add("Panel " + p.name()));
        for (String line : serves.isEmpty() ? List.of("Nothing is known to hang on it") : serves) {
            lines.addAll(Sketch.wrap(line, Sketch.SMALL, CELL - 60));
        }
        return lines;
    }

    private static int number(String space) {
        String digits = space.replaceAll("[^0-9].*", "");
        return digits.isEmpty() || digits.length() > 4 ? 1 : Math.max(1, Integer.parseInt(digits));
    }

    private static double height(@Nullable List<String> lines) {
        return lines == null ? 0 : lines.size() * Sketch.LINE + PAD * 2;
    }

    private void cell(Sketch s, int space, @Nullable List<String> lines, double x, double y, double h) {
        if (lines == null) {
            return;
        }
        boolean free = lines.size() == 1;
        s.frame(x, y, CELL, h, free ? 0.6 : 1.4, !free || isWhole);
        double at = y + PAD + Sketch.PLAIN;
        s.bold(x + PAD, at, Sketch.LARGE, String.valueOf(space));
        for (int i = 0; i < lines.size(); i++) {
            s.text(x + 46, at + i * Sketch.LINE, i == 0 ? Sketch.PLAIN : Sketch.SMALL, lines.get(i));
        }
    }

    private List<String> ties() {
        List<String> lines = new ArrayList<>();
        panel.ties()
                .forEach(t ->
                        lines.add("Handles of " + String.join(" and ", t) + " are tied: opened together by hand."));
        panel.pullOuts().forEach((n, t) -> lines.add("Pull-out " + n + " holds " + String.join(" and ", t) + "."));
        panel.exclusive().forEach(t -> lines.add("Only one of " + String.join(", ", t) + " may be on at a time."));
        return lines;
    }
}
