package org.splicebook.render.drawing;

import com.mxgraph.layout.hierarchical.mxHierarchicalLayout;
import com.mxgraph.model.mxGeometry;
import com.mxgraph.util.mxConstants;
import com.mxgraph.util.mxPoint;
import com.mxgraph.view.mxGraph;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import javax.swing.SwingConstants;

/** Boxes and the cables between them, laid out in layers from the left by jgraphx. */
final class BoxGraph {
    private static final double PAD = 8;
    private static final double BETWEEN_LAYERS = 46;
    private static final double BETWEEN_BOXES = 18;
    /** Line style of a cable that the record shows, and of one that is only possible. */
    private static final String POSSIBLE = "2 4";

    /**
     * One box.
     *
     * @param lines what it says, the first in bold
     * @param known whether everything in it is listed
     * @param heavy whether its frame is thick
     */
    record Node(List<String> lines, boolean known, boolean heavy) {
        double width() {
            double w = 0;
            for (int i = 0; i < lines.size(); i++) {
                w = Math.max(w, Sketch.width(lines.get(i), i == 0 ? Sketch.PLAIN : Sketch.SMALL, i == 0));
            }
            return w + PAD * 2;
        }

        double height() {
            return lines.size() * Sketch.LINE + PAD * 2;
        }
    }

    private record Edge(String from, String to, boolean possible) {}

    private final Map<String, Node> nodes = new LinkedHashMap<>();
    private final List<Edge> edges = new ArrayList<>();

    void node(String name, Node node) {
        nodes.putIfAbsent(name, node);
    }

    boolean has(String name) {
        return nodes.containsKey(name);
    }

    void edge(String from, String to, boolean possible) {
        edges.add(new Edge(from, to, possible));
    }

    /** Draws it with its upper left corner there; returns where it ends below. */
    double draw(Sketch s, double left, double top) {
        mxGraph graph = new mxGraph();
        // The layout writes no words; measuring them would ask for fonts, which a server need not have.
        graph.getStylesheet().getDefaultVertexStyle().put(mxConstants.STYLE_OVERFLOW, "fill");
        graph.getStylesheet().getDefaultEdgeStyle().put(mxConstants.STYLE_OVERFLOW, "fill");
        graph.getModel().beginUpdate();
        Object root = graph.getDefaultParent();
        Map<String, Object> cells = new LinkedHashMap<>();
        nodes.forEach((name, n) -> cells.put(name, graph.insertVertex(root, null, "", 0, 0, n.width(), n.height())));
        List<Object> lines = new ArrayList<>();
        for (Edge e : edges) {
            lines.add(graph.insertEdge(root, null, "", cells.get(e.from), cells.get(e.to)));
        }
        mxHierarchicalLayout layout = new mxHierarchicalLayout(graph, SwingConstants.WEST);
        layout.setInterRankCellSpacing(BETWEEN_LAYERS);
        layout.setIntraCellSpacing(BETWEEN_BOXES);
        layout.execute(root);
        graph.getModel().endUpdate();
        double x0 = Double.MAX_VALUE;
        double y0 = Double.MAX_VALUE;
        for (Object cell : cells.values()) {
            mxGeometry g = graph.getModel().getGeometry(cell);
            x0 = Math.min(x0, g.getX());
            y0 = Math.min(y0, g.getY());
        }
        double dx = left - x0;
        double dy = top - y0;
        for (int i = 0; i < edges.size(); i++) {
            edge(s, graph, lines.get(i), edges.get(i), cells, dx, dy);
        }
        double end = top;
        for (Map.Entry<String, Node> e : nodes.entrySet()) {
            mxGeometry g = graph.getModel().getGeometry(cells.get(e.getKey()));
            draw(s, e.getValue(), g.getX() + dx, g.getY() + dy);
            end = Math.max(end, g.getY() + dy + e.getValue().height());
        }
        return end;
    }

    private void edge(Sketch s, mxGraph graph, Object line, Edge e, Map<String, Object> cells, double dx, double dy) {
        mxGeometry a = graph.getModel().getGeometry(cells.get(e.from));
        mxGeometry b = graph.getModel().getGeometry(cells.get(e.to));
        boolean forward = a.getX() <= b.getX();
        List<mxPoint> points = new ArrayList<>();
        points.add(new mxPoint(forward ? a.getX() + a.getWidth() : a.getX(), a.getCenterY()));
        List<mxPoint> bends = graph.getModel().getGeometry(line).getPoints();
        if (bends != null && bends.size() > 2) {
            points.addAll(bends.subList(1, bends.size() - 1));
        }
        points.add(new mxPoint(forward ? b.getX() : b.getX() + b.getWidth(), b.getCenterY()));
        double[] flat = new double[points.size() * 2];
        for (int i = 0; i < points.size(); i++) {
            flat[2 * i] = points.get(i).getX() + dx;
            flat[2 * i + 1] = points.get(i).getY() + dy;
        }
        s.line(1.6, e.possible ? POSSIBLE : "", flat);
    }

    private static void draw(Sketch s, Node n, double x, double y) {
        s.frame(x, y, n.width(), n.height(), n.heavy ? 2.4 : 1.2, n.known);
        for (int i = 0; i < n.lines.size(); i++) {
            double at = y + PAD + Sketch.PLAIN + i * Sketch.LINE - 1;
            if (i == 0) {
                s.bold(x + PAD, at, Sketch.PLAIN, n.lines.get(i));
            } else {
                s.text(x + PAD, at, Sketch.SMALL, n.lines.get(i));
            }
        }
    }
}
