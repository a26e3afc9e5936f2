package org.splicebook.web;

import io.javalin.http.Context;
import java.util.List;
import java.util.Map;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.store.HouseStore;
import org.splicebook.store.StoredHouse;
import org.splicebook.web.view.Form;
import org.splicebook.web.view.HandOver;
import org.splicebook.web.view.Link;
import org.splicebook.web.view.Section;

/** What is given to the next person: the record on paper with the name of who hands it over, and as a file. */
final class HandOverPage {
    private final HouseStore store;

    HandOverPage(HouseStore store) {
        this.store = store;
    }

    List<Route> routes() {
        return List.of(Route.get("/houses/{house}/hand-over", this::show));
    }

    private void show(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        Paths paths = new Paths(stored.house().id());
        Form record = new Form(
                paths.sheet("record", "", "").to(),
                "The whole record on paper",
                List.of(new Form.Field(
                        "of", "Who hands it over", "", "a name, printed on it with the date", true, List.of())),
                "Make the PDF");
        List<Section> sections = List.of(new Section(
                "To go with it",
                "",
                List.of(
                        new Link(
                                paths.base() + "/record.yaml",
                                "The house file",
                                "goes into any other copy of this program"),
                        new Link(
                                Api.BASE + "/houses/"
                                        + Paths.part(stored.house().id()) + "/archive.zip?papers=yes",
                                "All of it in one archive",
                                "every revision, sighting and visit, photographs, documents, sheets; no residents"),
                        new Link(
                                Api.BASE + "/houses/"
                                        + Paths.part(stored.house().id()) + "/house.graphml",
                                "As GraphML",
                                "for programs that draw and compute graphs"),
                        paths.sheet("directory", "", "Panel directories, for the doors"),
                        paths.sheet("emergency", "", "Emergency: which throws"),
                        paths.sheet("card", "", "Cards and tags of all boxes"),
                        new Link(paths.base() + "/findings", "Findings", "what a check would ask about"))));
        ctx.html(Templates.page(
                "handover",
                Map.of(
                        "bar",
                        Paths.bar(stored),
                        "page",
                        new HandOver(record, sections, Caution.forWhat(Leads.TO_A_WIRE)))));
    }
}
