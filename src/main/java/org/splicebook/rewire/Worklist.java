package org.splicebook.rewire;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Box;
import org.splicebook.record.Breaker;
import org.splicebook.record.Cable;
import org.splicebook.record.CableEnd;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.record.Panel;
import org.splicebook.record.Quantity;
import org.splicebook.record.Source;
import org.splicebook.record.Wire;

/**
 * What a change asks of the hands.
 *
 * @param sites the boxes and panels to be opened, in order
 * @param steps what to do, in order, each with where
 * @param parts what to buy, with how many
 */
public record Worklist(List<String> sites, List<String> steps, Map<String, Integer> parts) {
    public Worklist {
        sites = List.copyOf(sites);
        steps = List.copyOf(steps);
    }

    /** {@return the work of a draft} */
    public static Worklist of(House before, House after, List<Move> moves) {
        Set<String> sites = new LinkedHashSet<>();
        List<String> steps = new ArrayList<>();
        Map<String, Integer> parts = new LinkedHashMap<>();
        for (Move m : moves) {
            List<String> in = sites(before, after, m);
            sites.addAll(in);
            steps.add((in.isEmpty() ? "" : String.join(" and ", in) + ": ") + words(after, m));
            parts(before, after, m).forEach(p -> parts.merge(p, 1, Integer::sum));
        }
        return new Worklist(List.copyOf(sites), steps, parts);
    }

    /** {@return where hands come to for a move} */
    public static List<String> sites(House before, House after, Move move) {
        if (move instanceof Move.Shift m) {
            return List.of(m.in());
        } else if (move instanceof Move.Cap m) {
            return List.of(m.in());
        } else if (move instanceof Move.Splice m) {
            return List.of(m.in());
        } else if (move instanceof Move.Pigtail m) {
            return List.of(m.in());
        } else if (move instanceof Move.SetTab m) {
            return box(before, after, m.device());
        } else if (move instanceof Move.ChangeKind m) {
            return box(before, after, m.device());
        } else if (move instanceof Move.SwapLineAndLoad m) {
            return box(before, after, m.device());
        } else if (move instanceof Move.Label m) {
            return box(before, after, m.device());
        } else if (move instanceof Move.ChangeBreaker m) {
            return List.of(m.panel());
        } else if (move instanceof Move.ReplacePanel m) {
            return List.of(m.is().name());
        } else if (move instanceof Move.AddPanel m) {
            return ends(m.feeder());
        } else if (move instanceof Move.AddSource m) {
            return Stream.ofNullable(m.is().at()).toList();
        } else if (move instanceof Move.ChangeSource m) {
            return after.panels().values().stream()
                    .filter(p -> p.supply().contains(m.is().name()))
                    .map(Panel::name)
                    .toList();
        } else if (move instanceof Move.Tie m) {
            return List.of(m.panel());
        } else if (move instanceof Move.AddCable m) {
            return ends(m.cable());
        } else if (move instanceof Move.RetireCable m) {
            return ends(before.cables().getOrDefault(m.cable(), after.cables().get(m.cable())));
        } else if (move instanceof Move.AddBox m) {
            return List.of(m.box().name());
        } else if (move instanceof Move.RetireBox m) {
            return List.of(m.box());
        } else if (move instanceof Move.AddDevice m) {
            return List.of(m.box());
        } else if (move instanceof Move.RetireDevice m) {
            return box(before, after, m.device());
        } else if (move instanceof Move.Remark m) {
            return ends(after.cables().getOrDefault(m.cable(), before.cables().get(m.cable())));
        }
        throw new IllegalStateException("a move of an unknown kind: " + move);
    }

    private static List<String> ends(@Nullable Cable c) {
        return c == null
                ? List.of()
                : c.ends().stream()
                        .map(CableEnd::boxOrNull)
                        .flatMap(Stream::ofNullable)
                        .distinct()
                        .toList();
    }

    private static List<String> box(House before, House after, String device) {
        return Stream.of(before, after)
                .flatMap(h -> h.boxes().values().stream())
                .filter(b -> b.devices().containsKey(device))
                .map(Box::name)
                .distinct()
                .toList();
    }

    private static String words(House after, Move move) {
        if (move instanceof Move.Shift m) {
            return "move " + m.end() + " to " + m.to() + ".";
        } else if (move instanceof Move.Cap m) {
            return "cap " + m.end() + ".";
        } else if (move instanceof Move.Splice m) {
            return "splice " + String.join(", ", m.ends()) + (m.by() == null ? "." : " (" + m.by().word() + ").");
        } else if (move instanceof Move.Pigtail m) {
            return "splice what is on " + m.terminal() + " and bring a pigtail from it to the terminal.";
        } else if (move instanceof Move.SetTab m) {
            return m.isIn()
                    ? "put in a device like " + m.device() + " whose tab " + m.tab() + " is in."
                    : "break out the tab " + m.tab() + " of " + m.device() + ".";
        } else if (move instanceof Move.ChangeKind m) {
            String terminals = m.terminals().entrySet().stream()
                    .map(e -> "what was on " + e.getKey() + " goes to " + e.getValue())
                    .collect(Collectors.joining(", "));
            return "put " + one(m.kind()) + " in the place of " + m.device()
                    + (terminals.isEmpty() ? "." : ": " + terminals + ".");
        } else if (move instanceof Move.SwapLineAndLoad m) {
            return "exchange what is on line and on load of " + m.device() + ".";
        } else if (move instanceof Move.Label m) {
            return "put the words \"" + m.words() + "\" on " + m.device() + ".";
        } else if (move instanceof Move.ChangeBreaker m) {
            String out = m.was().isEmpty() ? "" : "take out " + String.join(" and ", m.was());
            String in = m.is() == null ? "" : "put " + said(m.is()) + " in " + m.is().key();
            return Stream.of(out, in).filter(s -> !s.isEmpty()).collect(Collectors.joining("; ")) + ".";
        } else if (move instanceof Move.ReplacePanel m) {
            String landings = m.landings().entrySet().stream()
                    .filter(e -> !e.getKey().equals(e.getValue()))
                    .map(e -> e.getKey() + " to " + e.getValue())
                    .collect(Collectors.joining(", "));
            return "take down the panel and hang " + said(m.is()) + " in its place"
                    + (landings.isEmpty()
                            ? "; each wire lands where it did."
                            : "; what landed on each goes: " + landings + ".");
        } else if (move instanceof Move.AddPanel m) {
            return "hang " + m.is().name() + ", " + said(m.is()) + ", and lead its feeder "
                    + m.feeder().name() + " to it, " + said(m.feeder()) + "; every breaker in it off.";
        } else if (move instanceof Move.AddSource m) {
            return "set up " + said(m.is()) + ", not running, its output off and locked (licensed people).";
        } else if (move instanceof Move.ChangeSource m) {
            return "have " + m.is().name() + " made " + m.is().system().word()
                    + (m.is().rating() == null ? "" : " of " + m.is().rating().said())
                    + " (utility and licensed people).";
        } else if (move instanceof Move.Tie m) {
            return (m.isOn() ? "tie the handles of " : "take the tie off ") + String.join(" and ", m.spaces()) + ".";
        } else if (move instanceof Move.AddCable m) {
            return "pull in the cable " + m.cable().name() + ", " + said(m.cable()) + ".";
        } else if (move instanceof Move.RetireCable m) {
            return "take the wires of " + m.cable() + " out of their joints; draw it, or cap and mark every end.";
        } else if (move instanceof Move.AddBox m) {
            return "set the box " + m.box().name() + ".";
        } else if (move instanceof Move.RetireBox m) {
            return "take out the empty box " + m.box() + ".";
        } else if (move instanceof Move.AddDevice m) {
            return "put in " + m.device().name() + ", " + one(m.device().kind()) + ".";
        } else if (move instanceof Move.RetireDevice m) {
            return "take " + m.device() + " off its wires.";
        } else if (move instanceof Move.Remark m) {
            return "mark " + m.cable() + "." + m.wire() + " " + m.colour() + " at both ends.";
        }
        throw new IllegalStateException("a move of an unknown kind: " + move + " of " + after.id());
    }

    private static String one(DeviceKind kind) {
        String title = kind.title().toLowerCase(Locale.ROOT);
        return ("aeiou".indexOf(title.charAt(0)) < 0 ? "a " : "an ") + title;
    }

    private static String said(Breaker b) {
        String poles = b.spaces().size() == 1 ? "" : ", " + b.spaces().size() + " poles";
        String protects = b.protects().stream()
                .map(p -> ", " + p.name().toLowerCase(Locale.ROOT).replace('_', '-'))
                .collect(Collectors.joining());
        return "a " + b.type().name().toLowerCase(Locale.ROOT) + " of "
                + (b.rating() == null ? "a rating to be chosen" : b.rating().said()) + poles + protects;
    }

    private static String said(Source s) {
        return s.name() + ", a source (" + s.kind().word() + ") of "
                + s.system().word()
                + (s.rating() == null ? "" : ", " + s.rating().said());
    }

    private static String said(Panel p) {
        String spaces = p.spaces() == null ? "" : " of " + p.spaces() + " spaces";
        String rating = p.rating() == null ? "" : ", " + p.rating().said();
        Quantity main = p.main() == null ? null : p.main().rating();
        return "a panel" + spaces + rating + (p.main() == null ? ", main lugs" : ", with a main")
                + (main == null ? "" : " of " + main.said())
                + (p.bonded() ? ", neutral and ground joined in it" : "");
    }

    private static String said(Cable c) {
        Map<String, Long> sizes = c.wires().stream()
                .collect(Collectors.groupingBy(Worklist::size, LinkedHashMap::new, Collectors.counting()));
        String wires = sizes.entrySet().stream()
                .map(e -> e.getValue() + " wires" + e.getKey())
                .collect(Collectors.joining(", "));
        Quantity length = c.length();
        return c.kind().word() + ", " + wires + ", " + (length == null ? "length to be measured" : length.said());
    }

    private static String size(Wire w) {
        return w.size() == null ? "" : " of size " + w.size();
    }

    /** {@return what to buy for a move} */
    public static List<String> parts(House before, House after, Move move) {
        if (move instanceof Move.Cap) {
            return List.of("connector to cap a wire");
        } else if (move instanceof Move.Splice m) {
            return List.of("connector" + (m.by() == null ? "" : ", " + m.by().word()) + ", for "
                    + m.ends().size() + " wires");
        } else if (move instanceof Move.Pigtail) {
            return List.of("pigtail and its connector");
        } else if (move instanceof Move.SetTab m && m.isIn()) {
            return List.of("device like " + m.device());
        } else if (move instanceof Move.ChangeKind m) {
            return List.of(m.kind().title().toLowerCase(Locale.ROOT));
        } else if (move instanceof Move.ChangeBreaker m && m.is() != null) {
            return List.of(said(m.is()).substring(2));
        } else if (move instanceof Move.ReplacePanel m) {
            Panel was = before.panels().get(m.is().name());
            if (was != null
                    && was.spaces() != null
                    && was.spaces().equals(m.is().spaces())
                    && m.landings().isEmpty()) {
                return List.of();
            }
            List<String> all = new ArrayList<>(List.of(said(m.is()).substring(2)));
            m.is().breakers().values().forEach(b -> all.add(said(b).substring(2)));
            return all;
        } else if (move instanceof Move.AddPanel m) {
            List<String> all = new ArrayList<>(List.of(said(m.is()).substring(2)));
            m.is().breakers().values().forEach(b -> all.add(said(b).substring(2)));
            m.is().exclusive().forEach(g -> all.add("interlock for " + String.join(" and ", g)));
            all.add("cable " + said(m.feeder()));
            return all;
        } else if (move instanceof Move.AddSource m) {
            return List.of("source: " + said(m.is()));
        } else if (move instanceof Move.Tie m && m.isOn()) {
            return List.of("handle tie");
        } else if (move instanceof Move.Label m) {
            return List.of("label: " + m.words());
        } else if (move instanceof Move.AddCable m) {
            return List.of("cable " + said(m.cable()));
        } else if (move instanceof Move.AddBox m) {
            return List.of("box"
                    + (after.boxes().containsKey(m.box().name()) ? " " + m.box().name() : ""));
        } else if (move instanceof Move.AddDevice m) {
            return List.of(m.device().kind().title().toLowerCase(Locale.ROOT));
        }
        return List.of();
    }
}
