package org.splicebook.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Calendar;
import java.util.List;
import java.util.Random;
import java.util.zip.Deflater;
import java.util.zip.DeflaterOutputStream;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdfwriter.compress.CompressParameters;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.encryption.AccessPermission;
import org.apache.pdfbox.pdmodel.encryption.StandardProtectionPolicy;
import org.apache.pdfbox.pdmodel.font.PDType1Font;
import org.apache.pdfbox.pdmodel.font.Standard14Fonts;
import org.apache.pdfbox.pdmodel.graphics.image.JPEGFactory;
import org.apache.pdfbox.pdmodel.interactive.action.PDActionJavaScript;
import org.apache.pdfbox.pdmodel.interactive.action.PDActionURI;
import org.apache.pdfbox.pdmodel.interactive.annotation.PDAnnotationLink;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.splicebook.problem.Result;

class DocumentTest {
    private interface Change {
        void on(PDDocument document, PDPage page) throws IOException;
    }

    private static byte[] pdf(Change change) {
        try (PDDocument d = new PDDocument()) {
            PDPage page = new PDPage();
            d.addPage(page);
            try (PDPageContentStream s = new PDPageContentStream(d, page)) {
                s.beginText();
                s.setFont(new PDType1Font(Standard14Fonts.FontName.HELVETICA), 12);
                s.newLineAtOffset(50, 700);
                s.showText("Permit of the panel");
                s.endText();
            }
            change.on(d, page);
            ByteArrayOutputStream out = new ByteArrayOutputStream();
            d.save(out, CompressParameters.NO_COMPRESSION);
            return out.toByteArray();
        } catch (IOException e) {
            throw new IllegalStateException(e);
        }
    }

    private static String words(byte[] pdf) throws IOException {
        try (PDDocument d = Loader.loadPDF(pdf)) {
            return new PDFTextStripper().getText(d);
        }
    }

    /** {@return what stands in a PDF, unpacked} */
    private static String plain(byte[] pdf) throws IOException {
        try (PDDocument d = Loader.loadPDF(pdf)) {
            ByteArrayOutputStream out = new ByteArrayOutputStream();
            d.save(out, CompressParameters.NO_COMPRESSION);
            return out.toString(StandardCharsets.ISO_8859_1);
        }
    }

    @Test
    void whatIsSeenStaysAndWhatCameAlongDoesNot() throws IOException {
        byte[] sent = pdf((d, page) -> {
            d.getDocumentInformation().setAuthor("Robin Ash");
            d.getDocumentInformation().setCreationDate(Calendar.getInstance());
            d.getDocumentCatalog().setOpenAction(new PDActionJavaScript("app.alert('hostile')"));
            PDAnnotationLink link = new PDAnnotationLink();
            PDActionURI to = new PDActionURI();
            to.setURI("https://elsewhere.test/");
            link.setAction(to);
            page.setAnnotations(List.of(link));
            page.getCOSObject().setString(COSName.getPDFName("LastModified"), "D:20260501");
        });
        assertThat(new String(sent, StandardCharsets.ISO_8859_1)).contains("Robin Ash", "hostile", "elsewhere");
        byte[] clean = Document.clean(sent).get();
        assertThat(words(clean)).contains("Permit of the panel");
        assertThat(plain(clean))
                .doesNotContain("Robin Ash")
                .doesNotContain("hostile")
                .doesNotContain("elsewhere")
                .doesNotContain("LastModified")
                .doesNotContain("CreationDate");
        assertThat(Document.clean(clean).isOk()).isTrue();
    }

    @Test
    void photographsInItDoNotTellWhereTheyWereTaken() throws IOException {
        byte[] plain;
        try (PDDocument d = new PDDocument()) {
            var image = JPEGFactory.createFromImage(d, new BufferedImage(20, 20, BufferedImage.TYPE_INT_RGB));
            plain = image.getCOSObject().createRawInputStream().readAllBytes();
        }
        ByteArrayOutputStream told = new ByteArrayOutputStream();
        told.write(plain, 0, 2);
        byte[] place = "Exif\0\0GPS 52.1 N".getBytes(StandardCharsets.ISO_8859_1);
        told.writeBytes(new byte[] {(byte) 0xFF, (byte) 0xE1, 0, (byte) (place.length + 2)});
        told.writeBytes(place);
        told.write(plain, 2, plain.length - 2);
        assertThat(Document.withoutRemarks(told.toByteArray())).isEqualTo(Document.withoutRemarks(plain));
        byte[] sent = pdf((d, page) -> {
            var image = JPEGFactory.createFromByteArray(d, told.toByteArray());
            try (PDPageContentStream s =
                    new PDPageContentStream(d, page, PDPageContentStream.AppendMode.APPEND, false)) {
                s.drawImage(image, 50, 50);
            }
        });
        assertThat(new String(sent, StandardCharsets.ISO_8859_1)).contains("GPS 52.1");
        byte[] clean = Document.clean(sent).get();
        assertThat(new String(clean, StandardCharsets.ISO_8859_1)).doesNotContain("GPS 52.1");
        assertThat(words(clean)).contains("Permit");
    }

    @Test
    void whatCannotBeKeptIsTold() {
        assertThat(said(Document.clean("<html>".getBytes(StandardCharsets.UTF_8))))
                .contains("is no PDF");
        assertThat(said(Document.clean("%PDF-1.7 nothing more".getBytes(StandardCharsets.UTF_8))))
                .contains("damaged");
        byte[] locked =
                pdf((d, page) -> d.protect(new StandardProtectionPolicy("owner", "reader", new AccessPermission())));
        assertThat(said(Document.clean(locked))).containsAnyOf("locked", "damaged");
    }

    @Test
    void aBombIsRefusedBeforeItIsRead() throws IOException {
        ByteArrayOutputStream packed = new ByteArrayOutputStream();
        try (DeflaterOutputStream out = new DeflaterOutputStream(packed, new Deflater(9))) {
            byte[] zeros = new byte[1_000_000];
            for (int i = 0; i < 160; i++) {
                out.write(zeros);
            }
        }
        ByteArrayOutputStream pdf = new ByteArrayOutputStream();
        pdf.writeBytes("%PDF-1.7\n1 0 obj\n<< /Filter /FlateDecode >>\nstream\n".getBytes(StandardCharsets.UTF_8));
        pdf.writeBytes(packed.toByteArray());
        assertThat(said(Document.clean(pdf.toByteArray()))).contains("unpacks to more");
        assertThat(said(Document.clean(
                        "%PDF-1.7 << /Filter [/FlateDecode /FlateDecode] >>".getBytes(StandardCharsets.UTF_8))))
                .contains("cannot be counted");
    }

    @Test
    void brokenOnesAreToldAndNeverThrown() {
        byte[] sound = pdf((d, page) -> {});
        Random random = new Random(5);
        for (int n = 0; n < 200; n++) {
            byte[] broken = sound.clone();
            for (int k = 0; k < 4; k++) {
                broken[5 + random.nextInt(broken.length - 5)] = (byte) random.nextInt(256);
            }
            Result<byte[]> outcome = Document.clean(broken);
            assertThat(outcome.isOk() ? "" : said(outcome))
                    .as("seed 5, number " + n)
                    .isNotNull();
        }
    }

    private static String said(Result<byte[]> failed) {
        return failed.problems().get(0).said();
    }
}
