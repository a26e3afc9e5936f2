package org.splicebook.web;

import com.openhtmltopdf.css.constants.IdentValue;
import com.openhtmltopdf.css.parser.FSRGBColor;
import com.openhtmltopdf.css.sheet.FontFaceRule;
import com.openhtmltopdf.css.style.CssContext;
import com.openhtmltopdf.css.value.FontSpecification;
import com.openhtmltopdf.extend.OutputDevice;
import com.openhtmltopdf.extend.SVGDrawer;
import com.openhtmltopdf.layout.SharedContext;
import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder;
import com.openhtmltopdf.render.Box;
import com.openhtmltopdf.render.RenderingContext;
import java.awt.BasicStroke;
import java.awt.Shape;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.io.File;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.w3c.dom.Element;
import org.w3c.dom.Node;

/**
 * Puts our own drawings on paper: texts, frames, circles and lines, which is all of SVG that they use. The usual way to do this lays words
 * out with the machine's fonts, and a server may have none; here words are set in the sheet's own face, and stay words in the PDF.
 */
final class SvgOnPaper implements SVGDrawer {
    /** What a drawing may take of either paper, in CSS pixels; a larger one is made smaller, never cut. */
    private static final double WIDEST = 690;

    private static final double HIGHEST = 780;

    private static final FSRGBColor BLACK = new FSRGBColor(0, 0, 0);

    @Override
    public void importFontFaceRules(List<FontFaceRule> rules, SharedContext shared) {}

    @Override
    public void addFontFile(
            File file, String family, @Nullable Integer weight, BaseRendererBuilder.@Nullable FontStyle style) {}

    @Override
    public void close() {}

    @Override
    public SVGImage buildSVGImage(
            Element svg, Box box, CssContext context, double cssWidth, double cssHeight, double dotsPerPixel) {
        String[] view = svg.getAttribute("viewBox").split(" ");
        double width = Double.parseDouble(view[2]);
        double height = Double.parseDouble(view[3]);
        double wide = Math.min(number(svg, "width"), WIDEST) * dotsPerPixel;
        double scale = Math.min(wide / width, HIGHEST * dotsPerPixel / height);
        return new Picture(svg, (int) Math.ceil(width * scale), (int) Math.ceil(height * scale), scale, dotsPerPixel);
    }

    private static double number(Element e, String name) {
        String value = e.getAttribute(name);
        return value.isEmpty() ? 0 : Double.parseDouble(value);
    }

    /** A drawing of a known size in dots. */
    private record Picture(Element svg, int width, int height, double scale, double dotsPerPixel) implements SVGImage {
        @Override
        public int getIntrinsicWidth() {
            return width;
        }

        @Override
        public int getIntrinsicHeight() {
            return height;
        }

        @Override
        public void drawSVG(OutputDevice out, RenderingContext c, double x, double y) {
            for (Node n = svg.getFirstChild(); n != null; n = n.getNextSibling()) {
                if (n instanceof Element e) {
                    draw(e, out, c, x, y);
                }
            }
        }

        private void draw(Element e, OutputDevice out, RenderingContext c, double left, double top) {
            switch (e.getTagName()) {
                case "text" -> {
                    FontSpecification face = new FontSpecification();
                    face.families = new String[] {SheetPdf.FACE};
                    face.size = (float) (number(e, "font-size") * scale);
                    face.fontWeight =
                            e.getAttribute("font-weight").equals("bold") ? IdentValue.BOLD : IdentValue.NORMAL;
                    face.fontStyle = IdentValue.NORMAL;
                    face.variant = IdentValue.NORMAL;
                    out.setColor(BLACK);
                    out.setFont(c.getFont(face));
                    c.getTextRenderer()
                            .drawString(out, e.getTextContent(), (float) (left + number(e, "x") * scale), (float)
                                    (top + number(e, "y") * scale));
                }
                case "rect" ->
                    shape(
                            e,
                            new Rectangle2D.Double(
                                    left + number(e, "x") * scale,
                                    top + number(e, "y") * scale,
                                    number(e, "width") * scale,
                                    number(e, "height") * scale),
                            out);
                case "circle" -> {
                    double r = number(e, "r") * scale;
                    shape(
                            e,
                            new Ellipse2D.Double(
                                    left + number(e, "cx") * scale - r,
                                    top + number(e, "cy") * scale - r,
                                    2 * r,
                                    2 * r),
                            out);
                }
                case "polyline" -> shape(e, line(e.getAttribute("points"), left, top), out);
                default -> {
                    // Title and description are for those who do not see a page.
                }
            }
        }

        private Shape line(String points, double left, double top) {
            Path2D path = new Path2D.Double();
            boolean first = true;
            for (String point : points.trim().split(" +")) {
                String[] xy = point.split(",");
                double x = left + Double.parseDouble(xy[0]) * scale;
                double y = top + Double.parseDouble(xy[1]) * scale;
                if (first) {
                    path.moveTo(x, y);
                } else {
                    path.lineTo(x, y);
                }
                first = false;
            }
            return path;
        }

        private void shape(Element e, Shape shape, OutputDevice out) {
            String fill = e.getAttribute("fill");
            if (!fill.equals("none")) {
                String opacity = e.getAttribute("fill-opacity");
                out.setColor(colour(fill, opacity.isEmpty() ? 1 : Double.parseDouble(opacity)));
                out.fill(shape);
            }
            String stroke = e.getAttribute("stroke");
            if (!stroke.isEmpty() && !stroke.equals("none")) {
                out.setColor(colour(stroke, 1));
                double wide = e.hasAttribute("stroke-width") ? number(e, "stroke-width") : 1;
                List<Float> dashes = new ArrayList<>();
                for (String d : e.getAttribute("stroke-dasharray").split("[ ,]+")) {
                    if (!d.isEmpty()) {
                        dashes.add((float) (Double.parseDouble(d) * scale));
                    }
                }
                float[] pattern = new float[dashes.size()];
                for (int i = 0; i < pattern.length; i++) {
                    pattern[i] = dashes.get(i);
                }
                out.setStroke(new BasicStroke(
                        (float) (wide * scale),
                        BasicStroke.CAP_BUTT,
                        BasicStroke.JOIN_MITER,
                        10,
                        pattern.length == 0 ? null : pattern,
                        0));
                out.draw(shape);
            }
        }

        /** Paper is white: what lets it shine through becomes the lighter colour that is seen. */
        private static FSRGBColor colour(String name, double opacity) {
            int rgb = name.startsWith("#") ? Integer.parseInt(name.substring(1), 16) : 0;
            return new FSRGBColor(
                    over(rgb >> 16 & 255, opacity), over(rgb >> 8 & 255, opacity), over(rgb & 255, opacity));
        }

        private static int over(int part, double opacity) {
            return (int) Math.round(255 - (255 - part) * opacity);
        }
    }
}
