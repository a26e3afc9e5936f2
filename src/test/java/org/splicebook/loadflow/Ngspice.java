package org.splicebook.loadflow;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;

/** Runs ngspice, a general circuit simulator of Debian, on one deck after another. */
final class Ngspice {
    private final Path folder;

    Ngspice(Path folder) {
        this.folder = folder;
    }

    /** {@return whether it is installed here} */
    static boolean isThere() {
        for (String p : String.valueOf(System.getenv("PATH")).split(":")) {
            if (Files.isExecutable(Path.of(p, "ngspice"))) {
                return true;
            }
        }
        return false;
    }

    /** {@return the volts of every node of a deck, by the node's name, the reference as 0} */
    Map<String, Complex> volts(String deck) {
        try {
            Path in = folder.resolve("house.cir");
            Path out = folder.resolve("house.raw");
            Path said = folder.resolve("said.txt");
            Files.deleteIfExists(out);
            Files.writeString(in, deck);
            Process p = new ProcessBuilder("ngspice", "-b", "-r", out.toString(), in.toString())
                    .redirectErrorStream(true)
                    .redirectOutput(said.toFile())
                    .start();
            if (!p.waitFor(60, TimeUnit.SECONDS)) {
                p.destroyForcibly();
                throw new IllegalStateException("ngspice did not end within a minute");
            }
            byte[] raw = Files.exists(out) ? Files.readAllBytes(out) : new byte[0];
            if (raw.length == 0) {
                throw new IllegalStateException("ngspice: " + Files.readString(said) + "\n" + deck);
            }
            return read(raw);
        } catch (IOException e) {
            throw new IllegalStateException(e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(e);
        }
    }

    /** The simulator's raw file: a head in text that names the variables, then pairs of doubles. */
    private static Map<String, Complex> read(byte[] raw) {
        String head = new String(raw, StandardCharsets.ISO_8859_1);
        int data = head.indexOf("Binary:\n") + "Binary:\n".length();
        if (head.contains("No. Points: 0")) {
            throw new IllegalStateException("ngspice solved nothing: " + head);
        }
        List<String> names = new ArrayList<>();
        for (String line :
                head.substring(head.indexOf("Variables:\n") + 11, data).split("\n")) {
            String[] words = line.strip().split("\t");
            if (words.length == 3) {
                names.add(words[1]);
            }
        }
        ByteBuffer numbers = ByteBuffer.wrap(raw, data, raw.length - data).order(ByteOrder.LITTLE_ENDIAN);
        Map<String, Complex> volts = new HashMap<>();
        volts.put("0", Complex.ZERO);
        for (String name : names) {
            Complex value = new Complex(numbers.getDouble(), numbers.getDouble());
            if (name.startsWith("v(")) {
                volts.put(name.substring(2, name.length() - 1), value);
            }
        }
        return volts;
    }
}
