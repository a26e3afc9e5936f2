package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.StringReader;
import java.net.http.HttpResponse;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.jsoup.Jsoup;
import org.jsoup.nodes.Attribute;
import org.jsoup.nodes.Comment;
import org.jsoup.nodes.Document;
import org.jsoup.nodes.Element;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.splicebook.drafts.DraftDesk;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.housefile.PlainYaml;
import org.splicebook.housefile.PropertyFiles;
import org.splicebook.property.Properties;
import org.splicebook.record.Draft;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.render.Json;
import org.splicebook.store.KeptDraft;
import org.splicebook.store.Pictures;
import org.splicebook.visits.Residents;
import org.splicebook.visits.Visit;
import org.splicebook.visits.VisitDesk;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;

/**
 * Whatever words a record holds, they stay words: on pages, in drawings, tables, calendars, graphs and headers. Every free text of one house,
 * and what is kept beside it, carries what would be markup, script, a formula, a line or a label there.
 */
class HostileNamesIT {
    private static final String ZAP =
            "=zap(1)\"'><zap onzap='zap()'></title></script><!--zap--> ]]>{zap=\"1\"} $zap `zap`\nBEGIN:ZAP\nX-ZAP:1\tzap";
    private static final String PAGE = "/houses/" + Served.ID;
    private static final Set<String> WORDS = Set.of("name", "note", "label", "permit", "reason", "load");
    private static final int MOST_OF_A_KIND = 2;
    private static final String STARTS_A_FORMULA = "=+-@\t\r";

    private static Served served;

    @BeforeAll
    static void start() {
        served = Served.answering();
        String file = served.files.keep(Pictures.picture("jpg", 30, 20));
        served.store.put(hostile(Served.ALDER_ROW, file), 0, ZAP, ZAP).get();
        List<Move> moves = List.of(new Move.Cap("bench", "K1.black"), new Move.Remark("K2", "white", "black"));
        KeptDraft draft = new DraftDesk(served.store).save(new Draft("hall", Served.ID, null, ZAP, moves), 0, ZAP);
        VisitDesk desk = new VisitDesk(served.store);
        Visit visit = desk.take(Served.ID, "visit-1", "report", Map.of("said", ZAP), 0, ZAP);
        visit = desk.take(Served.ID, "visit-1", "diagnose", Map.of("suspects", ZAP, "next", ZAP), visit.version(), ZAP);
        new Residents(served.store)
                .keep(
                        Served.ID,
                        "one",
                        Map.of("name", ZAP, "reach", ZAP, "depends", ZAP, "lasts", ZAP, "access", ZAP),
                        Instant.EPOCH,
                        ZAP);
        for (String unit : List.of("common.yaml", "unit-14a.yaml", "unit-14b.yaml")) {
            House h = hostile(Properties.text(unit), file);
            if (served.store.findHouse(h.id()).isEmpty()) {
                served.store.put(h, 0, ZAP, ZAP).get();
            }
        }
        served.store
                .properties()
                .put(
                        PropertyFiles.parse("row", json(withWords(Properties.text("alder-row.yaml"), file)))
                                .get()
                                .property(),
                        0,
                        ZAP,
                        ZAP)
                .get();
    }

    @AfterAll
    static void stop() {
        served.close();
    }

    private static House hostile(String yaml, String file) {
        return HouseFiles.parse("a", json(withWords(yaml, file))).get();
    }

    private static String json(Object tree) {
        return Json.text(Json.tree(tree));
    }

    /** {@return the record with hostile words wherever it has words, and a name and a note where it may have them} */
    @SuppressWarnings("unchecked")
    private static Object withWords(String yaml, String file) {
        Map<String, Object> house = (Map<String, Object>) PlainYaml.strings(yaml);
        replace(house);
        house.put("name", ZAP);
        house.put("note", ZAP);
        each(house.get("places"), p -> {
            p.put("name", ZAP);
            p.put("note", ZAP);
        });
        for (String looked : List.of("sightings", "tests")) {
            ((List<Map<String, Object>>) house.getOrDefault(looked, List.of())).forEach(s -> {
                s.put("by", ZAP);
                s.put("note", ZAP);
            });
        }
        each(house.get("sources"), s -> s.put("note", ZAP));
        each(house.get("panels"), p -> {
            p.put("note", ZAP);
            p.put("photos", List.of(Map.of("file", file, "note", ZAP)));
            each(p.get("breakers"), b -> {
                b.put("label", ZAP);
                b.put("note", ZAP);
                b.put("permit", ZAP);
            });
        });
        each(house.get("cables"), c -> {
            c.put("note", ZAP);
            c.put("since", ZAP);
        });
        each(house.get("boxes"), b -> {
            b.put("note", ZAP);
            b.put("photos", List.of(Map.of("file", file, "note", ZAP)));
            each(b.get("devices"), d -> {
                d.put("label", ZAP);
                d.put("note", ZAP);
            });
        });
        return house;
    }

    @SuppressWarnings("unchecked")
    private static void replace(Object tree) {
        if (tree instanceof Map<?, ?> map) {
            ((Map<String, Object>) map).replaceAll((k, v) -> WORDS.contains(k) && v instanceof String ? ZAP : v);
            map.values().forEach(HostileNamesIT::replace);
        } else if (tree instanceof List<?> list) {
            list.forEach(HostileNamesIT::replace);
        }
    }

    @SuppressWarnings("unchecked")
    private static void each(Object things, java.util.function.Consumer<Map<String, Object>> change) {
        if (things instanceof Map<?, ?> map) {
            map.values().stream().filter(Map.class::isInstance).forEach(m -> change.accept((Map<String, Object>) m));
        }
    }

    /** From the start page on, whatever a page leads to; and the pages that no link leads to. */
    @Test
    void pagesShowTheWordsAndNeverObeyThem() {
        Set<String> seen = new LinkedHashSet<>(List.of(
                "/",
                PAGE + "/residents",
                PAGE + "/visits/visit-1",
                PAGE + "/walk?at=1",
                PAGE + "/boxes/bench/edit",
                PAGE + "/panels/main/photos",
                PAGE + "/begin",
                PAGE + "/hand-over",
                PAGE + "/lists",
                "/properties/alder-row/round",
                "/properties/alder-row/visits",
                PAGE + "/search?q=" + part(ZAP),
                PAGE + "/sight?at=" + part(ZAP),
                PAGE + "/diagnose?symptoms=" + part(ZAP),
                PAGE + "/questions/what-feeds?at=" + part(ZAP),
                PAGE + "/points/" + part(ZAP),
                PAGE + "/findings/" + part(ZAP) + "/" + part(ZAP),
                PAGE + "/drafts/" + part(ZAP),
                "/houses/" + part(ZAP),
                "/login?to=" + part(ZAP)));
        Deque<String> next = new ArrayDeque<>(seen);
        Map<String, Integer> many = new HashMap<>();
        int shown = 0;
        List<String> wrong = new ArrayList<>();
        while (!next.isEmpty()) {
            String path = next.remove();
            HttpResponse<String> answer = served.get(path);
            headers(path, answer, wrong);
            String type = answer.headers().firstValue("Content-Type").orElse("");
            if (type.startsWith("text/html")) {
                Document page = Jsoup.parse(answer.body());
                html(path, page, wrong);
                shown += page.text().contains("=zap(1)") ? 1 : 0;
                for (Element a : page.select("a[href]")) {
                    String to = a.attr("href").replaceFirst("#.*", "");
                    // The other houses of the property look as this one does.
                    boolean isOfAnother = to.startsWith("/houses/") && !to.startsWith(PAGE);
                    if (to.startsWith("/") && !isOfAnother && isFirstOfMany(to, many) && seen.add(to)) {
                        next.add(to);
                    }
                }
            } else if (type.startsWith("image/svg")) {
                xml(path, answer.body(), wrong);
            }
        }
        assertThat(wrong).isEmpty();
        assertThat(shown).as("pages that show the words at all").isGreaterThan(30);
    }

    /** {@return whether few pages of its kind were seen before: of one kind a few show what all do} */
    private static boolean isFirstOfMany(String path, Map<String, Integer> many) {
        String kind = path.replaceFirst("\\?.*", "")
                .replaceFirst("/(points|boxes|breakers|cables|places|findings)/.*", "/$1/x");
        return many.merge(kind, 1, Integer::sum) <= MOST_OF_A_KIND;
    }

    /** Everything of the API and every file of it, at every question. */
    @Test
    void filesAndAnswersOfTheApiHoldTheWordsAsWords() throws IOException {
        List<String> wrong = new ArrayList<>();
        List<String> paths = new ArrayList<>(List.of(
                Served.HOUSE,
                Served.HOUSE + "/revisions",
                Served.HOUSE + "/sightings",
                Served.HOUSE + "/findings",
                Served.HOUSE + "/visits",
                Served.HOUSE + "/residents",
                Served.HOUSE + "/drafts/hall",
                Served.HOUSE + "/drafts/hall/told",
                Served.HOUSE + "/changes",
                Served.HOUSE + "/due.ics?tests=all",
                Served.HOUSE + "/house.graphml",
                Served.HOUSE + "/dark",
                Served.HOUSE + "/shut-off?box=bench",
                Served.HOUSE + "/drawings/house",
                Served.HOUSE + "/drawings/panel?of=main",
                Served.HOUSE + "/drawings/box?of=bench",
                Served.HOUSE + "/drawings/circuit?of=main.6",
                Served.HOUSE + "/drawings/way?of=bench-1.top",
                "/api/v1/properties/alder-row",
                "/api/v1/metrics"));
        for (String sheet : List.of("directory", "strips", "card", "labels", "readings", "emergency", "record")) {
            paths.add(Served.HOUSE + "/sheets/" + sheet + ".pdf");
        }
        for (var q : served.store.questions()) {
            paths.add(Served.HOUSE + "/questions/" + q.id() + "/table.csv");
        }
        for (String question : computed()) {
            paths.add(Served.HOUSE + "/questions/" + question);
            paths.add(Served.HOUSE + "/questions/" + question.replaceFirst("(\\?|$)", "/table.csv$1"));
            paths.add(Served.HOUSE + "/questions/" + question.replaceFirst("(\\?|$)", "/table.xlsx$1"));
        }
        int tables = 0;
        for (String path : paths) {
            HttpResponse<String> answer = served.get(path);
            headers(path, answer, wrong);
            String type = answer.headers().firstValue("Content-Type").orElse("");
            if (type.contains("json")) {
                assertThat(Json.read(answer.body())).as(path).isNotNull();
            } else if (type.contains("svg") || type.contains("graphml")) {
                xml(path, answer.body(), wrong);
            } else if (type.contains("csv") && answer.statusCode() == 200) {
                tables++;
                csv(path, answer.body(), wrong);
            } else if (type.contains("calendar")) {
                answer.body()
                        .lines()
                        .filter(l -> l.matches("(BEGIN:ZAP|X-ZAP).*"))
                        .forEach(l -> wrong.add(path + " has the line " + l));
            } else if (path.endsWith("metrics") && answer.body().contains("zap")) {
                wrong.add(path + " tells the words");
            }
        }
        assertThat(wrong).isEmpty();
        assertThat(tables).isGreaterThan(5);
    }

    /** {@return computed questions of this house, with what they ask for} */
    private static List<String> computed() {
        return List.of(
                "what-feeds?at=bench-1.top",
                "shut-off?box=bench",
                "wrong-labels",
                "fill",
                "due?tests=all",
                "retest",
                "unprotected",
                "dark",
                "always-hot",
                "half-finished",
                "contradictions",
                "survey-status",
                "diagnose?symptoms=dead:%20bench-1.top");
    }

    private static String part(String words) {
        return java.net.URLEncoder.encode(words, java.nio.charset.StandardCharsets.UTF_8)
                .replace("+", "%20");
    }

    private static void headers(String path, HttpResponse<String> answer, List<String> wrong) {
        if (answer.statusCode() >= 500) {
            wrong.add(path + " answers " + answer.statusCode());
        }
        answer.headers().map().forEach((name, values) -> {
            if ((name + values).matches("(?is).*x-zap.*") || (name + values).contains("<zap")) {
                wrong.add(path + " has the header " + name + ": " + values);
            }
        });
    }

    private static void html(String path, Document page, List<String> wrong) {
        for (Element e : page.getAllElements()) {
            if (e.normalName().equals("zap")) {
                wrong.add(path + " has an element of the words in " + e.parent().cssSelector());
            }
            if (e.normalName().equals("script") && e.data().contains("<zap")) {
                wrong.add(path + " has the words in a script");
            }
            for (Attribute a : e.attributes()) {
                String name = a.getKey();
                boolean isOfTheWords =
                        name.startsWith("on") || name.contains("zap") || name.contains("\"") || name.contains("<");
                boolean isScript = a.getValue().strip().matches("(?is)(javascript|data|vbscript):.*");
                if (isOfTheWords || isScript) {
                    wrong.add(path + " has the attribute " + a + " at " + e.normalName());
                }
            }
            e.childNodes().forEach(n -> {
                if (n instanceof Comment c && c.getData().contains("zap")) {
                    wrong.add(path + " has a comment of the words");
                }
            });
        }
    }

    private static void xml(String path, String text, List<String> wrong) {
        try {
            DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
            factory.setFeature("http://apache.org/xml/features/disallow-doctype-decl", true);
            var document = factory.newDocumentBuilder().parse(new InputSource(new StringReader(text)));
            if (document.getElementsByTagName("zap").getLength() > 0) {
                wrong.add(path + " has an element of the words");
            }
        } catch (ParserConfigurationException | SAXException | IOException e) {
            wrong.add(path + " is not well-formed: " + e.getMessage());
        }
    }

    private static void csv(String path, String text, List<String> wrong) throws IOException {
        for (CSVRecord row : CSVFormat.RFC4180.parse(new StringReader(text))) {
            for (String cell : row) {
                boolean isNumber = cell.matches("-?[0-9.]+(E-?[0-9]+)?");
                if (!cell.isEmpty() && STARTS_A_FORMULA.indexOf(cell.charAt(0)) >= 0 && !isNumber) {
                    wrong.add(path + " has the formula " + cell);
                }
            }
        }
    }
}
