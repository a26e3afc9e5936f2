package org.splicebook.survey.passes;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Properties;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Breaker;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;
import org.splicebook.record.Panel;
import org.splicebook.record.Place;
import org.splicebook.record.Sighting;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Sureness;

/** How much likelier each throw is at a point by its label, its poles and the wiring that is recorded. The weights are of our own judgement. */
final class Likes {
    /** A label that names the room or the load: ten to the 0.5. */
    private static final double LABEL = 3;

    private static final double RECORDED = 100;
    private static final double RECORDED_SOMETIMES = 10;
    private static final double UNLIKE = 0.2;
    private static final double TWO_HOTS = 200;
    /** A load switched on, and the step seen at the breaker; a tone strongest there: ten to the 1.5 and to the 0.7. */
    private static final double STEP_SEEN = 30;

    private static final double TRACED = 5;
    private static final Properties WORDS = words();

    private final House house;

    Likes(House house) {
        this.house = house;
    }

    private static Properties words() {
        try (InputStream in = Objects.requireNonNull(Likes.class.getResourceAsStream("label-words.properties"))) {
            Properties read = new Properties();
            read.load(new InputStreamReader(in, StandardCharsets.UTF_8));
            return read;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    double of(Throw t, LoadPointWiring point, Device device) {
        double like = 1;
        Set<String> said = named(point.place(), device);
        for (String name : t.breakers()) {
            Breaker b = breaker(name);
            if (b == null) {
                continue;
            }
            if (b.isCalledSpare()) {
                like *= UNLIKE;
            } else {
                for (String word : tokens(b.label())) {
                    like *= said.contains(word) ? LABEL : 1;
                }
            }
        }
        boolean needsTwo = device.kind().loadPoints().stream()
                .flatMap(l -> l.pairs().stream())
                .allMatch(p -> p.volts() >= TWO_HOTS);
        like *= needsTwo == t.poles() > 1 ? 1 : UNLIKE;
        double recorded = 1;
        for (var feed : point.feeds()) {
            if (t.breakers().contains(feed.breaker())) {
                double weight = feed.sureness() == Sureness.MUST
                        ? RECORDED
                        : feed.sureness() == Sureness.SHOWN ? RECORDED_SOMETIMES : 1;
                recorded = Math.max(recorded, weight);
            }
        }
        return like * recorded;
    }

    /** {@return how much likelier a throw is at a point by a sighting without any breaker off; 1 where that says nothing of the two} */
    static double bySighting(Sighting s, Throw t, String point) {
        if (s.seen() instanceof Sighting.LoadStep l) {
            return isAt(l.at(), point) && t.breakers().contains(l.seenAt()) ? STEP_SEEN : 1;
        }
        boolean isTraced = s.seen() instanceof Sighting.Traced r
                && ((isAt(r.from(), point) && t.breakers().contains(r.to()))
                        || (isAt(r.to(), point) && t.breakers().contains(r.from())));
        return isTraced ? TRACED : 1;
    }

    private static boolean isAt(String where, String point) {
        return where.equals(point) || where.startsWith(point + ".");
    }

    /** {@return the words of a label that name the place of a point or what hangs there} */
    boolean names(@Nullable String label, @Nullable String place, Device device) {
        Set<String> narrow = new LinkedHashSet<>(placeWords(place));
        narrow.addAll(tokens(device.load()));
        return tokens(label).stream().anyMatch(narrow::contains);
    }

    @Nullable
    Breaker breaker(String name) {
        int dot = name.indexOf('.');
        Panel p = house.panels().get(name.substring(0, dot));
        return p == null ? null : p.breakers().get(name.substring(dot + 1));
    }

    private Set<String> named(@Nullable String place, Device d) {
        Set<String> words = placeWords(place);
        words.addAll(tokens(d.load()));
        words.addAll(tokens(d.kind().name()));
        words.addAll(tokens(WORDS.getProperty(family(d.kind().family()), "")));
        return words;
    }

    private Set<String> placeWords(@Nullable String name) {
        Set<String> words = new LinkedHashSet<>();
        Place place = name == null ? null : house.places().get(name);
        if (place != null) {
            words.addAll(tokens(place.said()));
            words.addAll(tokens(place.kind().word()));
            words.addAll(tokens(WORDS.getProperty(place.kind().word(), "")));
        }
        return words;
    }

    private static String family(DeviceKind.Family family) {
        return "device." + family.name().toLowerCase(Locale.ROOT);
    }

    /** Words in small letters, each as if it were one of a kind. */
    private static Set<String> tokens(@Nullable String text) {
        Set<String> words = new LinkedHashSet<>();
        if (text != null) {
            List<String> split = Arrays.asList(text.toLowerCase(Locale.ROOT).split("[^\\p{L}]+", -1));
            split.stream()
                    .filter(w -> w.length() > 1)
                    .map(w -> w.length() > 3 && w.endsWith("s") ? w.substring(0, w.length() - 1) : w)
                    .forEach(words::add);
        }
        return words;
    }
}
