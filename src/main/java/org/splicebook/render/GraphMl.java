package org.splicebook.render;

import java.io.StringWriter;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Box;
import org.splicebook.record.Cable;
import org.splicebook.record.CableEnd;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Panel;
import org.splicebook.record.Ref;
import org.splicebook.wiring.Feed;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Return;
import org.splicebook.wiring.Wiring;

/**
 * A house as GraphML (graphml.graphdrawing.org, version 1.0) for other programs: what is recorded, and which breaker may feed each load
 * point. Nodes have a kind and a name, edges a kind; edges that are derived say how sure they are.
 */
public final class GraphMl {
    private static final String SPACE = "http://graphml.graphdrawing.org/xmlns";

    private final XMLStreamWriter xml;
    private final Set<String> nodes = new LinkedHashSet<>();
    private int edges;

    private GraphMl(XMLStreamWriter xml) {
        this.xml = xml;
    }

    /**
     * {@return the house as GraphML}
     *
     * @param revision the revision that it is of
     */
    public static String of(Wiring wiring, long revision) {
        StringWriter out = new StringWriter();
        try {
            XMLStreamWriter xml = XMLOutputFactory.newDefaultFactory().createXMLStreamWriter(out);
            new GraphMl(xml).write(wiring, revision);
            xml.close();
        } catch (XMLStreamException e) {
            throw new IllegalStateException(e);
        }
        return out.toString();
    }

    private void write(Wiring wiring, long revision) throws XMLStreamException {
        House house = wiring.house();
        xml.writeStartDocument("UTF-8", "1.0");
        xml.writeStartElement("graphml");
        xml.writeDefaultNamespace(SPACE);
        for (String key : List.of("kind", "name", "basis")) {
            key("node", key);
        }
        for (String key : List.of("kind", "sureness")) {
            key("edge", key);
        }
        xml.writeStartElement("graph");
        xml.writeAttribute("id", house.id());
        xml.writeAttribute("edgedefault", "directed");
        xml.writeStartElement("desc");
        xml.writeCharacters(clean(house.said() + ", revision " + revision
                + ". A record, which proves nothing dead: test every wire yourself."));
        xml.writeEndElement();
        Map<String, String[]> all = new TreeMap<>();
        things(house, wiring, all);
        for (Map.Entry<String, String[]> e : all.entrySet()) {
            node(e.getKey(), e.getValue());
        }
        recorded(house);
        derived(wiring);
        xml.writeEndElement();
        xml.writeEndElement();
        xml.writeEndDocument();
    }

    private static void things(House house, Wiring wiring, Map<String, String[]> all) {
        house.sources().values().forEach(s -> all.put("source:" + s.name(), new String[] {"source", s.name(), ""}));
        house.places().values().forEach(p -> all.put("place:" + p.name(), new String[] {"place", p.said(), ""}));
        for (Panel p : house.panels().values()) {
            all.put(
                    "panel:" + p.name(),
                    new String[] {"panel", p.name(), basis(house, p.about().basis())});
            p.breakers()
                    .forEach((k, b) -> all.put("breaker:" + p.name() + "." + k, new String[] {
                        "breaker",
                        b.label() == null ? k : b.label(),
                        basis(house, b.about().basis())
                    }));
            joints(p.name(), p.joints(), all);
        }
        for (Cable c : house.cables().values()) {
            all.put(
                    "cable:" + c.name(),
                    new String[] {"cable", c.name(), basis(house, c.about().basis())});
        }
        for (Box b : house.boxes().values()) {
            all.put(
                    "box:" + b.name(),
                    new String[] {"box", b.name(), basis(house, b.about().basis())});
            b.devices()
                    .values()
                    .forEach(d -> all.put("device:" + d.name(), new String[] {
                        d.kind().name(), d.name(), basis(house, d.about().basis())
                    }));
            joints(b.name(), b.joints(), all);
        }
        wiring.loadPoints().forEach(p -> all.put("load-point:" + p.id(), new String[] {"load-point", p.id(), ""}));
    }

    private static void joints(String in, List<Joint> joints, Map<String, String[]> all) {
        for (int i = 0; i < joints.size(); i++) {
            all.put(joint(in, i), new String[] {"joint", in + " " + (i + 1), ""});
            joints.get(i).members().forEach(r -> all.put(end(r, in), new String[] {"end", r.said(), ""}));
        }
    }

    private static String joint(String in, int number) {
        return "joint:" + in + "." + (number + 1);
    }

    private static String end(Ref ref, String in) {
        return "end:" + ref.said() + "@" + in;
    }

    private static String basis(House house, org.splicebook.record.@Nullable Basis said) {
        return (said == null ? house.basis() : said).word();
    }

    private void recorded(House house) throws XMLStreamException {
        for (Panel p : house.panels().values()) {
            edge("panel:" + p.name(), "place:" + p.place(), "in", "");
            for (String k : p.breakers().keySet()) {
                edge("breaker:" + p.name() + "." + k, "panel:" + p.name(), "in", "");
            }
            joined(p.name(), "panel:" + p.name(), p.joints(), house);
        }
        for (Cable c : house.cables().values()) {
            for (CableEnd end : c.ends()) {
                List<String> candidates = candidates(end);
                for (String at : candidates) {
                    String kind = candidates.size() == 1 ? "ends-in" : "may-end-in";
                    edge("cable:" + c.name(), (house.panels().containsKey(at) ? "panel:" : "box:") + at, kind, "");
                }
            }
        }
        for (Box b : house.boxes().values()) {
            edge("box:" + b.name(), "place:" + b.place(), "in", "");
            for (String d : b.devices().keySet()) {
                edge("device:" + d, "box:" + b.name(), "in", "");
            }
            joined(b.name(), "box:" + b.name(), b.joints(), house);
        }
    }

    private void joined(String in, String node, List<Joint> joints, House house) throws XMLStreamException {
        for (int i = 0; i < joints.size(); i++) {
            edge(joint(in, i), node, "in", "");
            for (Ref r : joints.get(i).members()) {
                edge(joint(in, i), end(r, in), "joins", "");
                edge(end(r, in), whole(r, in, node, house), "of", "");
            }
        }
    }

    private static List<String> candidates(CableEnd end) {
        if (end instanceof CableEnd.OneOf any) {
            return any.boxes();
        }
        return end instanceof CableEnd.At at ? List.of(at.box()) : List.of();
    }

    /** {@return what a wire end or terminal is part of} */
    private static String whole(Ref ref, String in, String node, House house) {
        if (ref instanceof Ref.WireEnd w) {
            return "cable:" + w.cable();
        }
        if (ref instanceof Ref.DeviceTerminal d) {
            return "device:" + d.device();
        }
        if (ref instanceof Ref.SourceTerminal s) {
            return "source:" + s.source();
        }
        Panel panel = house.panels().get(in);
        if (ref instanceof Ref.PanelTerminal t && panel != null) {
            return panel.breakers().entrySet().stream()
                    .filter(b -> b.getValue().spaces().contains(t.terminal()))
                    .map(b -> "breaker:" + in + "." + b.getKey())
                    .findFirst()
                    .orElse(node);
        }
        return node;
    }

    private void derived(Wiring wiring) throws XMLStreamException {
        for (LoadPointWiring p : wiring.loadPoints()) {
            edge("load-point:" + p.id(), "device:" + p.device(), "of", "");
            for (Feed f : p.feeds()) {
                edge("breaker:" + f.breaker(), "load-point:" + p.id(), "feeds", sureness(f.sureness()));
            }
            for (Return r : p.returns()) {
                edge(
                        "load-point:" + p.id(),
                        "panel:" + r.bar().replaceAll("[.].*", ""),
                        "returns-over-" + r.over().name().toLowerCase(Locale.ROOT),
                        sureness(r.sureness()));
            }
        }
    }

    private static String sureness(Enum<?> sureness) {
        return sureness.name().toLowerCase(Locale.ROOT);
    }

    private void key(String of, String name) throws XMLStreamException {
        xml.writeEmptyElement("key");
        xml.writeAttribute("id", of + "-" + name);
        xml.writeAttribute("for", of);
        xml.writeAttribute("attr.name", name);
        xml.writeAttribute("attr.type", "string");
    }

    private void node(String id, String[] said) throws XMLStreamException {
        nodes.add(id);
        xml.writeStartElement("node");
        xml.writeAttribute("id", clean(id));
        data("node-kind", said[0]);
        data("node-name", said[1]);
        data("node-basis", said[2]);
        xml.writeEndElement();
    }

    /** An edge to what is not recorded is none. */
    private void edge(String from, String to, String kind, String sureness) throws XMLStreamException {
        if (!nodes.contains(from) || !nodes.contains(to)) {
            return;
        }
        xml.writeStartElement("edge");
        xml.writeAttribute("id", "e" + ++edges);
        xml.writeAttribute("source", clean(from));
        xml.writeAttribute("target", clean(to));
        data("edge-kind", kind);
        data("edge-sureness", sureness);
        xml.writeEndElement();
    }

    private void data(String key, String value) throws XMLStreamException {
        if (!value.isEmpty()) {
            xml.writeStartElement("data");
            xml.writeAttribute("key", key);
            xml.writeCharacters(clean(value));
            xml.writeEndElement();
        }
    }

    /** {@return the text without what XML cannot hold at all} */
    private static String clean(String text) {
        return text.codePoints()
                .filter(GraphMl::isOfXml)
                .collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
                .toString();
    }

    private static boolean isOfXml(int c) {
        return c == '\t' || c == '\n' || (c >= 0x20 && c <= 0xD7FF) || (c >= 0xE000 && c <= 0xFFFD) || c > 0xFFFF;
    }
}
