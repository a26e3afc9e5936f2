package org.splicebook.web;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import org.splicebook.store.StoredHouse;
import org.splicebook.web.view.HouseBar;
import org.splicebook.web.view.Link;

/** Addresses of the pages of a house. */
record Paths(String house) {
    /** {@return the name as a part of an address} */
    static String part(String segment) {
        return URLEncoder.encode(segment, StandardCharsets.UTF_8).replace("+", "%20");
    }

    String base() {
        return "/houses/" + part(house);
    }

    String of(String kind, String name) {
        return base() + "/" + kind + "/" + part(name);
    }

    /** {@return the bar of the pages of a house in this revision} */
    static HouseBar bar(StoredHouse stored) {
        return new HouseBar(
                new Paths(stored.house().id()).base(),
                stored.house().said(),
                stored.revision().number(),
                Just.of(stored));
    }

    Link box(String name) {
        return link("boxes", name, "");
    }

    Link panel(String name) {
        return link("panels", name, "");
    }

    Link point(String name, String note) {
        return link("points", name, note);
    }

    Link breaker(String name, String note) {
        return link("breakers", name, note);
    }

    Link cable(String name, String note) {
        return link("cables", name, note);
    }

    Link place(String name, String words) {
        return new Link(of("places", name), words, "");
    }

    private Link link(String kind, String name, String note) {
        return new Link(of(kind, name), name, note);
    }

    /** A sheet to print, as PDF; of what may be empty. */
    Link sheet(String kind, String subject, String words) {
        String of = subject.isEmpty() ? "" : "?of=" + part(subject);
        return new Link(Api.BASE + "/houses/" + part(house) + "/sheets/" + kind + ".pdf" + of, words, "PDF");
    }

    /** {@return a question with one parameter filled in} */
    Link ask(String question, String parameter, String value, String words) {
        return new Link(base() + "/questions/" + part(question) + "?" + part(parameter) + "=" + part(value), words, "");
    }
}
