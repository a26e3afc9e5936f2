package org.splicebook.render;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.databind.node.TextNode;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.rules.fill.BoxFill;
import org.splicebook.rules.fill.FillItem;
import org.splicebook.rules.fill.Room;

/** How full a box is, as JSON. Volumes are in cubic inches, {@code least} and {@code most}; without {@code most} nothing bounds it. */
public final class FillJson {
    private FillJson() {}

    /** {@return one box} */
    public static ObjectNode write(BoxFill f) {
        ObjectNode o = Json.object()
                .put("box", f.box())
                .put("edition", f.edition())
                .put("method", f.method())
                .put("presumed", f.isPresumed())
                .put("verdict", word(f.verdict()))
                .put("said", f.said())
                .put("basis", f.basis().word());
        o.set("items", Json.list(f.items(), FillJson::item));
        o.set("used", room(f.used()));
        o.set("parts", strings(f.parts()));
        o.set("capacity", room(f.capacity()));
        o.set("extras", Json.list(f.extras(), FillJson::extra));
        o.set("cures", strings(f.cures()));
        o.set("not-known", strings(f.notKnown()));
        o.set("assumed", strings(f.assumed()));
        o.set("cautions", strings(Caution.forWhat(Leads.TO_A_WIRE)));
        return o.put("advice", FillText.ADVICE);
    }

    private static ObjectNode item(FillItem i) {
        ObjectNode o = Json.object()
                .put("what", i.what())
                .put("count", i.count())
                .put("article", i.article())
                .put("mark", i.mark());
        o.set("about", strings(i.about()));
        o.set("room", room(i.room()));
        return o;
    }

    private static ObjectNode extra(BoxFill.Extra e) {
        ObjectNode o = Json.object().put("say", e.say()).put("fits", word(e.answer()));
        o.set("used", room(e.used()));
        return o;
    }

    private static ArrayNode strings(List<String> all) {
        return Json.list(all, TextNode::valueOf);
    }

    private static @Nullable ObjectNode room(@Nullable Room room) {
        return room == null ? null : Json.object().put("least", room.least()).put("most", room.most());
    }

    private static String word(Enum<?> constant) {
        return constant.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
