package ferrule.record.pdf;

import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.outputdevice.helper.ExternalResourceControlPriority;
import com.openhtmltopdf.pdfboxout.PdfBoxRenderer;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.svgsupport.BatikSVGDrawer;
import com.openhtmltopdf.util.XRLog;
import ferrule.record.page.RecordPage;
import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import java.awt.color.ColorSpace;
import java.awt.color.ICC_Profile;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Map;
import org.apache.pdfbox.pdmodel.PDDocument;

/**
 * The pages of prose, laid out from XHTML: everything but the results fibre by fibre. Nothing is
 * fetched from anywhere while they are made.
 */
final class ProsePages {

  private static final TemplateEngine TEMPLATES =
      TemplateEngine.createPrecompiled(
          Path.of("none"),
          ContentType.Html,
          ProsePages.class.getClassLoader(),
          "ferrule.record.templates");

  static {
    // Its log goes to the standard error; what it says there is of no use to a user.
    XRLog.setLoggingEnabled(false);
  }

  private ProsePages() {}

  /** A document of these pages, which the caller closes. */
  static PDDocument of(RecordPage page) throws IOException {
    PdfRendererBuilder builder = new PdfRendererBuilder();
    builder.useFastMode();
    builder.usePdfUaAccessibility(true);
    builder.usePdfAConformance(PdfRendererBuilder.PdfAConformance.PDFA_2_U);
    builder.useColorProfile(ICC_Profile.getInstance(ColorSpace.CS_sRGB).getData());
    builder.useExternalResourceAccessControl(
        (uri, type) -> uri != null && uri.startsWith("data:image/jpeg;base64,"),
        ExternalResourceControlPriority.RUN_BEFORE_RESOLVING_URI);
    String sans = "IBM Plex Sans";
    builder.useFont(Typeface.REGULAR::open, sans, 400, FontStyle.NORMAL, true);
    builder.useFont(Typeface.BOLD::open, sans, 700, FontStyle.NORMAL, true);
    builder.useFont(Typeface.MONO::open, "IBM Plex Mono", 400, FontStyle.NORMAL, true);
    builder.useReplacementText(Character.toString(Typeface.STAND_IN));
    builder.useSVGDrawer(new BatikSVGDrawer());
    builder.withHtmlContent(html(page), "");
    try (PdfBoxRenderer renderer = builder.buildPdfRenderer()) {
      return renderer.createPDFKeepOpen();
    }
  }

  /** The pages as XHTML. */
  static String html(RecordPage page) throws IOException {
    StringOutput out = new StringOutput(128 * 1024);
    TEMPLATES.render("record/record.jte", Map.of("page", page, "css", style()), out);
    return Typeface.printable(out.toString());
  }

  private static String style() throws IOException {
    try (InputStream in = ProsePages.class.getResourceAsStream("/record.css")) {
      if (in == null) {
        throw new IllegalStateException("record.css is missing from the program");
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }
}
