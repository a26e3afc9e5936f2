package org.splicebook.web;

import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.util.XRLog;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Map;
import java.util.Objects;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.splicebook.render.sheet.Paper;
import org.splicebook.render.sheet.Sheet;

/** Makes PDF of sheets, with nothing of the machine: the face is a library's own (Liberation Sans), and nothing is loaded from elsewhere. */
public final class SheetPdf {
    /** The face that all is set in. */
    static final String FACE = "sheet";

    private static final String FILE = "/org/apache/pdfbox/resources/ttf/LiberationSans-Regular.ttf";
    private static final String BOLD = "/liberation/LiberationSans-Bold.ttf";

    /** Photographs come within the sheet; nothing else is loaded. */
    private static final String PHOTOGRAPH = "data:image/jpeg;base64,";

    static {
        XRLog.setLoggingEnabled(false);
    }

    private SheetPdf() {}

    /** {@return the sheet as PDF} */
    public static byte[] of(Sheet sheet, Paper paper) {
        String html = Templates.page(
                "sheet",
                Map.of("sheet", sheet, "style", Resources.text("sheet.css").replace("PAPER", paper.size())));
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (SvgOnPaper drawings = new SvgOnPaper()) {
            new PdfRendererBuilder()
                    .useFont(SheetPdf::face, FACE, 400, FontStyle.NORMAL, true)
                    .useFont(SheetPdf::bold, FACE, 700, FontStyle.NORMAL, true)
                    .useSVGDrawer(drawings)
                    .useUriResolver((base, uri) -> uri.startsWith(PHOTOGRAPH) ? uri : null)
                    .withProducer("Splicebook")
                    .withHtmlContent(html, null)
                    .toStream(out)
                    .run();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return out.toByteArray();
    }

    private static InputStream face() {
        return Objects.requireNonNull(PDDocument.class.getResourceAsStream(FILE), FILE);
    }

    private static InputStream bold() {
        return Objects.requireNonNull(SheetPdf.class.getResourceAsStream(BOLD), BOLD);
    }
}
