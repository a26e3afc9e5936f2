package org.splicebook.store;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.Collections;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.zip.DataFormatException;
import java.util.zip.Inflater;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSObject;
import org.apache.pdfbox.cos.COSStream;
import org.apache.pdfbox.io.MemoryUsageSetting;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;

/**
 * Makes a PDF that somebody sent into one that may be kept: its pages are taken into a new document, so that scripts, forms, links, enclosed
 * files, and who made it where and with what, stay behind.
 */
public final class Document {
    /** Most bytes that are looked at. */
    public static final int MOST_BYTES = Photograph.MOST_BYTES;

    private static final int MOST_PAGES = 300;
    private static final long MOST_INFLATED = 150_000_000;
    private static final Pattern STREAM = Pattern.compile("stream\r?\n");
    /** Packed twice, or by what is said elsewhere: what it unpacks to cannot be counted beforehand. */
    private static final Pattern PACKED_ODDLY = Pattern.compile(
            "/Filter\\s*(?:[0-9]|\\[[^\\]]*(?:#|[0-9]+\\s+[0-9]+\\s+R|Decode[^\\]]*(?:Flate|LZW|RunLength)))|/LZWDecode|/Filter\\s*/[A-Za-z0-9]*#");

    private static final Set<COSName> LEFT_BEHIND = Set.of(
            COSName.METADATA,
            COSName.AA,
            COSName.A,
            COSName.JS,
            COSName.ANNOTS,
            COSName.getPDFName("PieceInfo"),
            COSName.getPDFName("LastModified"),
            COSName.getPDFName("Thumb"),
            COSName.getPDFName("B"),
            COSName.getPDFName("PresSteps"),
            COSName.getPDFName("OPI"),
            COSName.getPDFName("Alternates"),
            COSName.STRUCT_PARENT,
            COSName.STRUCT_PARENTS);

    private Document() {}

    /** {@return whether these bytes say of themselves that they are a PDF} */
    public static boolean isPdf(byte[] content) {
        return content.length > 5 && new String(content, 0, 5, StandardCharsets.ISO_8859_1).equals("%PDF-");
    }

    /**
     * {@return the pages alone, as PDF; or what is wrong with what was sent}
     *
     * @param sent a PDF of at most {@link #MOST_BYTES} bytes and 300 pages, without a password
     */
    public static Result<byte[]> clean(byte[] sent) {
        if (sent.length > MOST_BYTES) {
            return failed(
                    ProblemKind.TOO_LARGE, "The document is too large.", "Send at most " + MOST_BYTES + " bytes.");
        }
        if (!isPdf(sent)) {
            return failed(
                    ProblemKind.MEDIA_TYPE, "What was sent is no PDF, whatever its name says.", "Print it as a PDF.");
        }
        if (isBomb(sent)) {
            return failed(
                    ProblemKind.TOO_LARGE,
                    "The document unpacks to more than is read, or in a way that cannot be counted.",
                    "Print it as a PDF once more.");
        }
        // One at a time, so that a few large ones together do not take all the memory.
        synchronized (Document.class) {
            return copied(sent);
        }
    }

    private static Result<byte[]> copied(byte[] sent) {
        try (PDDocument in = Loader.loadPDF(
                        sent,
                        "",
                        null,
                        null,
                        MemoryUsageSetting.setupMixed(MOST_INFLATED, 4 * MOST_INFLATED).streamCache);
                PDDocument out = new PDDocument()) {
            if (in.isEncrypted()) {
                return failed(
                        ProblemKind.MEDIA_TYPE, "The document is locked.", "Print it as a PDF without a password.");
            }
            if (in.getNumberOfPages() < 1 || in.getNumberOfPages() > MOST_PAGES) {
                return failed(
                        ProblemKind.TOO_LARGE,
                        "The document has " + in.getNumberOfPages() + " pages.",
                        "Send 1 to " + MOST_PAGES + " of them.");
            }
            Set<COSBase> seen = Collections.newSetFromMap(new IdentityHashMap<>());
            for (PDPage page : in.getPages()) {
                PDPage copy = out.importPage(page);
                copy.setResources(page.getResources());
                strip(copy.getCOSObject(), seen);
            }
            ByteArrayOutputStream bytes = new ByteArrayOutputStream();
            out.save(bytes);
            return Result.ok(bytes.toByteArray());
        } catch (IOException | RuntimeException | StackOverflowError e) {
            // Readers answer broken documents with exceptions of many kinds.
            return failed(
                    ProblemKind.SYNTAX, "The document cannot be read: it is damaged.", "Print it as a PDF once more.");
        }
    }

    /** Takes off whatever hangs on pages and is none of what is seen on them. */
    private static void strip(COSBase from, Set<COSBase> seen) throws IOException {
        COSBase base = from instanceof COSObject o ? o.getObject() : from;
        if (base == null || !seen.add(base)) {
            return;
        }
        if (base instanceof COSArray array) {
            for (COSBase item : array) {
                if (item != null) {
                    strip(item, seen);
                }
            }
        } else if (base instanceof COSDictionary dictionary) {
            for (COSName key : List.copyOf(dictionary.keySet())) {
                if (LEFT_BEHIND.contains(key)) {
                    dictionary.removeItem(key);
                } else if (!key.equals(COSName.PARENT)) {
                    COSBase item = dictionary.getItem(key);
                    if (item != null) {
                        strip(item, seen);
                    }
                }
            }
            if (dictionary instanceof COSStream stream && COSName.DCT_DECODE.equals(stream.getFilters())) {
                picture(stream);
            }
        }
    }

    /** A photograph within a document may tell where it was taken, as any other. */
    private static void picture(COSStream stream) throws IOException {
        byte[] raw;
        try (InputStream in = stream.createRawInputStream()) {
            raw = in.readAllBytes();
        }
        try (OutputStream out = stream.createRawOutputStream()) {
            out.write(withoutRemarks(raw));
        }
    }

    /** {@return a JPEG without what cameras and programs write into it beside the picture} */
    static byte[] withoutRemarks(byte[] jpeg) {
        ByteArrayOutputStream out = new ByteArrayOutputStream(jpeg.length);
        int at = 2;
        if (jpeg.length < 4 || (jpeg[0] & 0xFF) != 0xFF || (jpeg[1] & 0xFF) != 0xD8) {
            return jpeg;
        }
        out.write(jpeg, 0, 2);
        while (at + 4 <= jpeg.length && (jpeg[at] & 0xFF) == 0xFF) {
            int marker = jpeg[at + 1] & 0xFF;
            int length = 2 + (((jpeg[at + 2] & 0xFF) << 8) | (jpeg[at + 3] & 0xFF));
            if (marker == 0xDA || at + length > jpeg.length) {
                break;
            }
            // Application segments but that of the file's own kind and of its colours, and comments.
            boolean isRemark = (marker > 0xE0 && marker <= 0xEF && marker != 0xEE) || marker == 0xFE;
            if (!isRemark) {
                out.write(jpeg, at, length);
            }
            at += length;
        }
        out.write(jpeg, at, jpeg.length - at);
        return out.toByteArray();
    }

    /** {@return whether what its streams unpack to, all together, is more than is read} */
    private static boolean isBomb(byte[] sent) {
        String text = new String(sent, StandardCharsets.ISO_8859_1);
        if (PACKED_ODDLY.matcher(text).find()) {
            return true;
        }
        long inflated = 0;
        byte[] buffer = new byte[65_536];
        Matcher m = STREAM.matcher(text);
        while (m.find()) {
            Inflater inflater = new Inflater();
            try {
                inflater.setInput(sent, m.end(), sent.length - m.end());
                int n = inflater.inflate(buffer);
                while (n > 0) {
                    inflated += n;
                    if (inflated > MOST_INFLATED) {
                        return true;
                    }
                    n = inflater.inflate(buffer);
                }
            } catch (DataFormatException e) {
                // Not packed, or packed otherwise.
            } finally {
                inflater.end();
            }
        }
        return false;
    }

    private static Result<byte[]> failed(ProblemKind kind, String message, String cure) {
        return Result.failed(Problem.error(kind, Where.field("photo"), message, cure));
    }
}
