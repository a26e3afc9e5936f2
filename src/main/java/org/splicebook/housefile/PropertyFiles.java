package org.splicebook.housefile;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.Property;

/** Reads and writes property files: what belongs together and what feeds what, in YAML or JSON, beside the house files of its parts. */
public final class PropertyFiles {
    /**
     * A property as it was written.
     *
     * @param property the property
     * @param positions where its parts, types, links and meters stand: {@code parts.14a}, {@code links[0]}, {@code meters.m-1}
     */
    public record Written(Property property, Map<String, Where> positions) {
        public Written {
            positions = new LinkedHashMap<>(positions);
        }
    }

    private PropertyFiles() {}

    /** {@return the property of a file, or all problems with line and column} */
    public static Result<Written> read(Path file) {
        Problems problems = new Problems();
        List<HouseFiles.SourceText> texts = new FolderReader(problems).read(file);
        return problems.any() ? new Result.Failed<>(problems.inOrder()) : parse(texts.get(0), problems);
    }

    /** Reads a text; {@code name} is what the problems call it. */
    public static Result<Written> parse(String name, String text) {
        return parse(new HouseFiles.SourceText(name, text), new Problems());
    }

    private static Result<Written> parse(HouseFiles.SourceText text, Problems problems) {
        Optional<Node> whole = YamlReader.readSome(text.name(), text.text(), problems);
        PropertyReader reader = new PropertyReader(problems);
        Property property = whole.isPresent() ? reader.read(whole.get()) : null;
        return property == null || problems.any()
                ? new Result.Failed<>(problems.inOrder())
                : Result.ok(new Written(property, reader.positions()));
    }

    /** {@return the property as a file; reading it gives the same property} */
    public static String write(Property p) {
        Tree top = new Tree()
                .put("splicebook-property", PropertyReader.VERSION)
                .put("property", p.id())
                .put("name", p.name())
                .putList("complete", p.linksComplete() ? List.of("links") : List.of())
                .about(p.about())
                .putMap(
                        "buildings",
                        p.buildings(),
                        b -> new Tree().put("name", b.title()).about(b.about()).node())
                .putMap(
                        "types",
                        p.types(),
                        t -> new Tree()
                                .put("name", t.title())
                                .put("house", t.house())
                                .about(t.about())
                                .node())
                .putMap("common", parts(p, Property.Role.COMMON), PropertyFiles::part)
                .putMap("units", parts(p, Property.Role.UNIT), PropertyFiles::part)
                .putList(
                        "links",
                        p.links(),
                        l -> new Tree()
                                .put("from", l.from())
                                .put("point", l.point())
                                .put("to", l.to())
                                .put("source", l.source())
                                .about(l.about())
                                .node())
                .putMap(
                        "meters",
                        p.meters(),
                        m -> new Tree()
                                .put("number", m.number())
                                .put("counts", m.counts())
                                .put("in", m.in())
                                .put("source", m.source())
                                .about(m.about())
                                .node());
        return YamlWriter.write(top.node());
    }

    private static Map<String, Property.Part> parts(Property p, Property.Role role) {
        Map<String, Property.Part> some = new LinkedHashMap<>();
        p.parts().forEach((name, part) -> {
            if (part.role() == role) {
                some.put(name, part);
            }
        });
        return some;
    }

    private static Node part(Property.Part p) {
        return new Tree()
                .put("name", p.title())
                .put("house", p.house())
                .put("building", p.building())
                .put("type", p.type())
                .put("level", p.level())
                .about(p.about())
                .node();
    }
}
