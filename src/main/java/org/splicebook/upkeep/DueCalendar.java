package org.splicebook.upkeep;

import biweekly.ICalVersion;
import biweekly.ICalendar;
import biweekly.component.VEvent;
import biweekly.io.text.ICalWriter;
import biweekly.property.DateStart;
import biweekly.util.ICalDate;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Date;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.splicebook.record.House;

/** What is due as a calendar (iCalendar, RFC 5545): a whole-day event for all tests of one kind in one house on one day. */
public final class DueCalendar {
    private static final int LINE = 70;

    private DueCalendar() {}

    /**
     * {@return the calendar}
     *
     * @param due what is due, by house
     * @param today the day for what should have been done before
     */
    public static String of(Map<House, List<Due>> due, LocalDate today) {
        ICalendar calendar = new ICalendar();
        calendar.setProductId("-//Splicebook//Tests that are due//EN");
        due.forEach((house, list) -> {
            Map<String, List<Due>> together = new TreeMap<>();
            for (Due d : list) {
                LocalDate on = d.on().isBefore(today) ? today : d.on();
                together.computeIfAbsent(on + " " + d.kind().id(), k -> new ArrayList<>())
                        .add(d);
            }
            together.forEach(
                    (key, some) -> calendar.addEvent(event(house, LocalDate.parse(key.substring(0, 10)), some, today)));
        });
        StringWriter out = new StringWriter();
        try (ICalWriter writer = new ICalWriter(out, ICalVersion.V2_0)) {
            // The writer counts characters, RFC 5545 octets without the line's end.
            writer.getVObjectWriter().getFoldedLineWriter().setLineLength(LINE);
            writer.write(calendar);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return out.toString();
    }

    private static VEvent event(House house, LocalDate on, List<Due> some, LocalDate today) {
        TestKind kind = some.get(0).kind();
        VEvent e = new VEvent();
        // The same test on the same day is the same event, however often the calendar is fetched.
        e.setUid(house.id() + "-" + kind.id() + "-" + on + "@splicebook");
        e.setDateTimeStamp(Date.from(today.atStartOfDay(ZoneOffset.UTC).toInstant()));
        DateStart start = new DateStart(new ICalDate(
                biweekly.util.DateTimeComponents.parse(on.toString().replace("-", "")), false));
        e.setDateStart(start);
        e.setSummary(house.said() + ": " + kind.title() + " (" + some.size() + ")");
        StringBuilder text = new StringBuilder(kind.how()).append('\n');
        some.forEach(d -> text.append("\n- ")
                .append(d.subject())
                .append(d.place() == null ? "" : ", " + place(house, d.place()))
                .append(": ")
                .append(d.state().words()));
        e.setDescription(text.append("\n\nA record proves nothing dead: test every wire before you touch it.")
                .toString());
        return e;
    }

    /** {@return what people call a place of a house} */
    static String place(House house, String key) {
        var place = house.places().get(key);
        return place == null ? key : place.said();
    }
}
