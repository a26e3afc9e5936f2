package org.splicebook.housefile;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.Draft;
import org.splicebook.record.House;
import org.splicebook.record.Move;

/** Reads move files: a draft of a change to a house, written as YAML. */
public final class DraftFiles {
    private static final Set<String> KEYS = Set.of("draft", "house", "revision", "reason", "moves");

    /**
     * A draft as it was written.
     *
     * @param draft the draft
     * @param positions where each of its moves stands
     */
    public record Written(Draft draft, List<Where> positions) {
        public Written {
            positions = List.copyOf(positions);
        }
    }

    private DraftFiles() {}

    /** {@return the draft of a file, its new parts read as parts of that house; or all problems with line and column} */
    public static Result<Written> read(Path file, House house) {
        Problems problems = new Problems();
        List<HouseFiles.SourceText> texts = new FolderReader(problems).read(file);
        return problems.any() ? new Result.Failed<>(problems.inOrder()) : parse(texts.get(0), house, problems);
    }

    /** Reads a text; {@code name} is what the problems call it. */
    public static Result<Written> parse(String name, String text, House house) {
        return parse(new HouseFiles.SourceText(name, text), house, new Problems());
    }

    /**
     * {@return the draft of a text that was written from one and checked before it was kept: its house is not looked at again}
     *
     * @param text as {@link #write} makes it
     */
    public static Result<Draft> parseKept(String text) {
        Problems problems = new Problems();
        Optional<Node> whole = YamlReader.readSome("draft", text, problems);
        Draft draft = whole.isPresent() ? kept(whole.get(), problems) : null;
        return draft == null || problems.any() ? new Result.Failed<>(problems.inOrder()) : Result.ok(draft);
    }

    private static Draft kept(Node whole, Problems problems) {
        Fields f = Fields.of(whole, KEYS, problems);
        f.need("house", "Name the house that it is of.");
        return read(f, f.text("house", ""), new Known(problems, true)).draft();
    }

    private static Result<Written> parse(HouseFiles.SourceText text, House house, Problems problems) {
        Optional<Node> whole = YamlReader.readSome(text.name(), text.text(), problems);
        Written written = whole.isPresent() ? read(whole.get(), house, problems) : null;
        return written == null || problems.any() ? new Result.Failed<>(problems.inOrder()) : Result.ok(written);
    }

    private static Written read(Node whole, House house, Problems problems) {
        Fields f = Fields.of(whole, KEYS, problems);
        String of = f.text("house", house.id());
        if (!of.equals(house.id())) {
            problems.error(
                    ProblemKind.CONFLICT,
                    f.at("house"),
                    "This draft is of the house " + of + ", not of " + house.id() + ".",
                    "Name that house, or a draft of this one.");
        }
        Known known = new Known(problems);
        known.placeNames.addAll(house.places().keySet());
        known.ends.addAll(house.panels().keySet());
        known.panelNames.addAll(house.panels().keySet());
        known.sourceNames.addAll(house.sources().keySet());
        known.sources.putAll(house.sources());
        known.cableNames.addAll(house.cables().keySet());
        known.cables.putAll(house.cables());
        known.ends.addAll(house.boxes().keySet());
        return read(f, of, known);
    }

    private static Written read(Fields f, String of, Known known) {
        f.need("draft", "Give it a name: draft: hall-neutral.");
        f.need("moves", "List its moves: moves: [{move: K1.black, to: K2.black, in: hall}].");
        Integer revision = f.integer("revision", 1, 999_999);
        MoveReader reader = new MoveReader(known);
        List<Move> moves = new ArrayList<>();
        List<Where> positions = new ArrayList<>();
        for (Node n : f.list("moves")) {
            @Nullable Move m = reader.read(n);
            if (m != null) {
                moves.add(m);
                positions.add(n.at());
            }
        }
        Draft draft = new Draft(
                f.text("draft", "draft"), of, revision == null ? null : (long) revision, f.note("reason"), moves);
        return new Written(draft, positions);
    }

    /** {@return the draft as a move file; reading it on the same house gives the same draft} */
    public static String write(Draft draft) {
        Tree top = new Tree()
                .put("draft", draft.name())
                .put("house", draft.house())
                .put(
                        "revision",
                        draft.revision() == null ? null : draft.revision().toString())
                .put("reason", draft.reason())
                .put("moves", Tree.list(draft.moves(), DraftFiles::move));
        return YamlWriter.write(top.node());
    }

    private static Node move(Move move) {
        if (move instanceof Move.Shift m) {
            return new Tree()
                    .put("move", m.end())
                    .put("to", m.to())
                    .put("in", m.in())
                    .node();
        } else if (move instanceof Move.Cap m) {
            return new Tree().put("cap", m.end()).put("in", m.in()).node();
        } else if (move instanceof Move.Splice m) {
            return new Tree()
                    .put("splice", Tree.list(m.ends()))
                    .put("in", m.in())
                    .put("by", m.by() == null ? null : m.by().word())
                    .node();
        } else if (move instanceof Move.Pigtail m) {
            return new Tree().put("pigtail", m.terminal()).put("in", m.in()).node();
        } else if (move instanceof Move.SetTab m) {
            return new Tree()
                    .put("tab", m.tab())
                    .put("of", m.device())
                    .put("is", m.isIn() ? "in" : "out")
                    .node();
        } else if (move instanceof Move.ChangeKind m) {
            return new Tree()
                    .put("device", m.device())
                    .put("kind", m.kind().name())
                    .putMap("terminals", m.terminals(), Tree::scalar)
                    .node();
        } else if (move instanceof Move.SwapLineAndLoad m) {
            return new Tree().put("swap-line-and-load", m.device()).node();
        } else if (move instanceof Move.ChangeBreaker m) {
            Tree t = new Tree().put("panel", m.panel()).putList("was", m.was());
            return m.is() == null
                    ? t.node()
                    : t.put("is", m.is().key())
                            .put("as", PanelWriter.breaker(m.is()))
                            .node();
        } else if (move instanceof Move.ReplacePanel m) {
            return new Tree()
                    .put("replace-panel", m.is().name())
                    .put("as", PanelWriter.panel(m.is()))
                    .putMap("landings", m.landings(), Tree::scalar)
                    .node();
        } else if (move instanceof Move.AddPanel m) {
            return new Tree()
                    .put("add-panel", m.is().name())
                    .put("as", PanelWriter.panel(m.is()))
                    .put("feeder", CableWriter.cable(m.feeder()))
                    .node();
        } else if (move instanceof Move.AddSource m) {
            return new Tree()
                    .put("add-source", m.is().name())
                    .put("as", HouseWriter.source(m.is()))
                    .node();
        } else if (move instanceof Move.ChangeSource m) {
            return new Tree()
                    .put("change-source", m.is().name())
                    .put("as", HouseWriter.source(m.is()))
                    .node();
        } else if (move instanceof Move.Tie m) {
            return new Tree()
                    .put(m.isOn() ? "tie" : "untie", Tree.list(m.spaces()))
                    .put("panel", m.panel())
                    .node();
        } else if (move instanceof Move.AddCable m) {
            return new Tree()
                    .put("add-cable", m.cable().name())
                    .put("as", CableWriter.cable(m.cable()))
                    .node();
        } else if (move instanceof Move.AddBox m) {
            return new Tree()
                    .put("add-box", m.box().name())
                    .put("as", BoxWriter.box(m.box()))
                    .node();
        } else if (move instanceof Move.AddDevice m) {
            return new Tree()
                    .put("add-device", m.device().name())
                    .put("in", m.box())
                    .put("as", BoxWriter.device(m.device()))
                    .node();
        } else if (move instanceof Move.RetireCable m) {
            return new Tree().put("retire-cable", m.cable()).node();
        } else if (move instanceof Move.RetireBox m) {
            return new Tree().put("retire-box", m.box()).node();
        } else if (move instanceof Move.RetireDevice m) {
            return new Tree().put("retire-device", m.device()).node();
        }
        if (move instanceof Move.Label m) {
            return new Tree().put("label", m.device()).put("says", m.words()).node();
        }
        Move.Remark m = (Move.Remark) move;
        return new Tree()
                .put("remark", m.wire())
                .put("of", m.cable())
                .put("colour", m.colour())
                .node();
    }

    /** {@return the keys of each kind of move, by the key that tells it} */
    static Map<String, Set<String>> shapes() {
        Map<String, Set<String>> all = new LinkedHashMap<>();
        all.put("move", Set.of("move", "to", "in"));
        all.put("cap", Set.of("cap", "in"));
        all.put("splice", Set.of("splice", "in", "by"));
        all.put("pigtail", Set.of("pigtail", "in"));
        all.put("tab", Set.of("tab", "of", "is"));
        all.put("device", Set.of("device", "kind", "terminals"));
        all.put("swap-line-and-load", Set.of("swap-line-and-load"));
        all.put("tie", Set.of("tie", "panel"));
        all.put("untie", Set.of("untie", "panel"));
        all.put("panel", Set.of("panel", "was", "is", "as"));
        all.put("replace-panel", Set.of("replace-panel", "as", "landings"));
        all.put("add-panel", Set.of("add-panel", "as", "feeder"));
        all.put("change-source", Set.of("change-source", "as"));
        all.put("add-source", Set.of("add-source", "as"));
        all.put("add-cable", Set.of("add-cable", "as"));
        all.put("retire-cable", Set.of("retire-cable"));
        all.put("add-box", Set.of("add-box", "as"));
        all.put("retire-box", Set.of("retire-box"));
        all.put("add-device", Set.of("add-device", "in", "as"));
        all.put("retire-device", Set.of("retire-device"));
        all.put("label", Set.of("label", "says"));
        all.put("remark", Set.of("remark", "of", "colour"));
        return all;
    }
}
