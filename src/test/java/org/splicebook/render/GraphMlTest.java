package org.splicebook.render;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.Set;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.House;
import org.splicebook.wiring.Derivation;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;

class GraphMlTest {
    private static Document read(House house) throws Exception {
        String text = GraphMl.of(Derivation.derive(house), 3);
        DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
        factory.setNamespaceAware(true);
        return factory.newDocumentBuilder().parse(new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8)));
    }

    private static NodeList all(Document d, String name) {
        return d.getElementsByTagNameNS("http://graphml.graphdrawing.org/xmlns", name);
    }

    @Test
    void theSampleHouseIsAGraphWhoseEdgesHaveBothEnds() throws Exception {
        House house = HouseFiles.read(Path.of("sample-house")).get();
        Document d = read(house);
        Set<String> nodes = new HashSet<>();
        for (int i = 0; i < all(d, "node").getLength(); i++) {
            assertThat(nodes.add(((Element) all(d, "node").item(i)).getAttribute("id")))
                    .isTrue();
        }
        for (int i = 0; i < all(d, "edge").getLength(); i++) {
            Element e = (Element) all(d, "edge").item(i);
            assertThat(nodes).contains(e.getAttribute("source"), e.getAttribute("target"));
        }
        house.boxes().keySet().forEach(b -> assertThat(nodes).contains("box:" + b));
        house.cables().keySet().forEach(c -> assertThat(nodes).contains("cable:" + c));
        Derivation.derive(house).loadPoints().forEach(p -> assertThat(nodes).contains("load-point:" + p.id()));
    }

    @Test
    void namesCannotBreakOutOfIt() throws Exception {
        House house = HouseFiles.parse("a", """
                        splicebook: 1
                        house: quince-court-7
                        name: "</graph><x> & ]]>"
                        sources: {service: {system: split-phase 120/240}}
                        places: {bath: {name: "<b>&amp;</b>", kind: bathroom}}
                        """).get();
        Document d = read(house);
        assertThat(all(d, "x").getLength()).isZero();
        assertThat(all(d, "desc").item(0).getTextContent()).contains("</graph><x> & ]]>");
        assertThat(d.getDocumentElement().getTextContent()).contains("<b>&amp;</b>");
    }
}
