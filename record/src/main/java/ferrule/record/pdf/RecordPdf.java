package ferrule.record.pdf;

import ferrule.record.page.RecordPage;
import ferrule.record.page.Show;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.time.ZoneOffset;
import java.util.Calendar;
import java.util.GregorianCalendar;
import java.util.List;
import java.util.Locale;
import java.util.TimeZone;
import javax.xml.transform.TransformerException;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSInteger;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDDocumentInformation;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.common.PDMetadata;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.documentinterchange.logicalstructure.PDStructureElement;
import org.apache.pdfbox.pdmodel.documentinterchange.logicalstructure.PDStructureTreeRoot;
import org.apache.pdfbox.pdmodel.interactive.documentnavigation.destination.PDPageFitWidthDestination;
import org.apache.pdfbox.pdmodel.interactive.documentnavigation.outline.PDDocumentOutline;
import org.apache.pdfbox.pdmodel.interactive.documentnavigation.outline.PDOutlineItem;
import org.apache.xmpbox.XMPMetadata;
import org.apache.xmpbox.schema.AdobePDFSchema;
import org.apache.xmpbox.schema.DublinCoreSchema;
import org.apache.xmpbox.schema.PDFAIdentificationSchema;
import org.apache.xmpbox.schema.XMPBasicSchema;
import org.apache.xmpbox.type.BadFieldValueException;
import org.apache.xmpbox.xml.XmpSerializer;

/**
 * The record as one PDF/A-2u document: fonts embedded, text readable by machines, bookmarks, a
 * running title and "page n of m". The same content gives the same bytes: dates and identifier come
 * from the time of issue.
 */
public final class RecordPdf {

  private RecordPdf() {}

  /**
   * Writes the document. The stream stays open.
   *
   * @throws IOException if {@code out} fails
   */
  public static void write(OutputStream out, RecordPage page) throws IOException {
    write(out, page, ResultPages.MOST_READINGS);
  }

  static void write(OutputStream out, RecordPage page, int mostReadings) throws IOException {
    try (PDDocument document = ProsePages.of(page)) {
      Face regular = new Face(document, Typeface.REGULAR);
      Face bold = new Face(document, Typeface.BOLD);
      Sheets sheets = new Sheets(document, regular, bold);
      ResultPages results = new ResultPages(sheets, page, mostReadings);
      results.write();
      insert(document, sheets.pages(), results.marks());
      structure(document, sheets.passages());
      stamp(document, regular, page);
      describe(document, page);
      document.save(out);
    }
  }

  /** Puts the results, with their bookmarks, before the last part. */
  private static void insert(PDDocument document, List<PDPage> pages, List<ResultPages.Mark> marks)
      throws IOException {
    PDDocumentOutline outline = document.getDocumentCatalog().getDocumentOutline();
    PDOutlineItem lastPart = outline.getLastChild();
    PDPage before = lastPart.findDestinationPage(document);
    for (PDPage page : pages) {
      document.getPages().insertBefore(page, before);
    }
    PDOutlineItem results = item("6 Results by place and link", pages.get(0));
    lastPart.insertSiblingBefore(results);
    PDOutlineItem place = null;
    for (ResultPages.Mark mark : marks) {
      PDOutlineItem item = item(mark.title(), mark.page());
      if (mark.level() == 1) {
        results.addLast(item);
        place = item;
      } else if (place != null) {
        place.addLast(item);
      }
    }
    results.closeNode();
  }

  private static PDOutlineItem item(String title, PDPage page) {
    PDOutlineItem item = new PDOutlineItem();
    item.setTitle(title);
    PDPageFitWidthDestination destination = new PDPageFitWidthDestination();
    destination.setPage(page);
    destination.setTop((int) PDRectangle.A4.getHeight());
    item.setDestination(destination);
    return item;
  }

  /** Hangs the passages of the results into the structure that the prose pages have. */
  private static void structure(PDDocument document, List<Sheets.Passage> passages) {
    PDStructureTreeRoot root = document.getDocumentCatalog().getStructureTreeRoot();
    if (root == null) {
      return;
    }
    COSDictionary tree = (COSDictionary) root.getCOSObject().getDictionaryObject("ParentTree");
    COSBase numbers = tree == null ? null : tree.getDictionaryObject(COSName.NUMS);
    if (!(numbers instanceof COSArray nums)) {
      return;
    }
    int next = 0;
    for (int i = 0; i < nums.size(); i += 2) {
      next = Math.max(next, nums.getInt(i) + 1);
    }
    PDStructureElement section = new PDStructureElement("Sect", root);
    root.appendKid(section);
    PDPage page = null;
    COSArray parents = new COSArray();
    for (Sheets.Passage passage : passages) {
      if (!passage.page().equals(page)) {
        page = passage.page();
        parents = new COSArray();
        nums.add(COSInteger.get(next));
        nums.add(parents);
        page.setStructParents(next);
        next++;
      }
      PDStructureElement element = new PDStructureElement(passage.role().tag().getName(), section);
      element.setPage(page);
      element.getCOSObject().setInt(COSName.K, passage.number());
      section.appendKid(element);
      parents.add(element.getCOSObject());
    }
    root.setParentTreeNextKey(next);
  }

  /** Running title and page numbers, outside the structure. */
  private static void stamp(PDDocument document, Face face, RecordPage page) throws IOException {
    double size = 7.2;
    double width = PDRectangle.A4.getWidth();
    String issued = "Record issued " + Show.time(page.issuedAt()) + " UTC";
    double room = Sheets.WIDTH - face.width(issued, size) - 20;
    String title =
        face.fitted(Typeface.printable(page.cover().title()).replace('\n', ' '), size, room);
    String made = Typeface.printable("Made with Ferrule " + page.version()).replace('\n', ' ');
    int pages = document.getNumberOfPages();
    int number = 0;
    for (PDPage sheet : document.getPages()) {
      number++;
      try (PDPageContentStream content =
          new PDPageContentStream(
              document, sheet, PDPageContentStream.AppendMode.APPEND, true, true)) {
        content.beginMarkedContent(COSName.ARTIFACT);
        content.setNonStrokingColor(Sheets.FADED);
        line(content, face, size, Sheets.LEFT, 806, title);
        line(content, face, size, width - Sheets.LEFT - face.width(issued, size), 806, issued);
        line(content, face, size, Sheets.LEFT, 32, made);
        String of = "page " + number + " of " + pages;
        line(content, face, size, width - Sheets.LEFT - face.width(of, size), 32, of);
        content.endMarkedContent();
      }
    }
  }

  private static void line(
      PDPageContentStream content, Face face, double size, double x, double y, String text)
      throws IOException {
    content.beginText();
    content.setFont(face.font(), (float) size);
    content.newLineAtOffset((float) x, (float) y);
    content.showText(text);
    content.endText();
  }

  private static void describe(PDDocument document, RecordPage page) throws IOException {
    Calendar issued = GregorianCalendar.from(page.issuedAt().atZone(ZoneOffset.UTC));
    issued.setTimeZone(TimeZone.getTimeZone("UTC"));
    issued.set(Calendar.MILLISECOND, 0);
    String title = legal(page.cover().title()) + ": record of fibre loss tests";
    String maker = "Ferrule " + legal(page.version());
    PDDocumentInformation information = new PDDocumentInformation();
    information.setTitle(title);
    information.setCreator(maker);
    information.setProducer(maker);
    information.setCreationDate(issued);
    information.setModificationDate(issued);
    document.setDocumentInformation(information);
    document.setDocumentId(page.issuedAt().toEpochMilli());
    document.getDocumentCatalog().setLanguage(Locale.ENGLISH.getLanguage());
    PDMetadata metadata = new PDMetadata(document);
    metadata.importXMPMetadata(xmp(title, maker, issued));
    document.getDocumentCatalog().setMetadata(metadata);
  }

  private static byte[] xmp(String title, String maker, Calendar issued) throws IOException {
    try {
      XMPMetadata xmp = XMPMetadata.createXMPMetadata();
      PDFAIdentificationSchema id = xmp.createAndAddPDFAIdentificationSchema();
      id.setPart(2);
      id.setConformance("U");
      DublinCoreSchema core = xmp.createAndAddDublinCoreSchema();
      core.setTitle(title);
      XMPBasicSchema basic = xmp.createAndAddXMPBasicSchema();
      basic.setCreatorTool(maker);
      basic.setCreateDate(issued);
      basic.setModifyDate(issued);
      AdobePDFSchema pdf = xmp.createAndAddAdobePDFSchema();
      pdf.setProducer(maker);
      ByteArrayOutputStream bytes = new ByteArrayOutputStream();
      new XmpSerializer().serialize(xmp, bytes, true);
      return bytes.toByteArray();
    } catch (BadFieldValueException | TransformerException e) {
      throw new IOException("The document's description could not be written", e);
    }
  }

  /** Text without what XML 1.0 forbids. */
  private static String legal(String text) {
    StringBuilder legal = new StringBuilder(text.length());
    text.codePoints()
        .forEach(
            c ->
                legal.appendCodePoint(
                    Character.isISOControl(c)
                            || (c >= 0xD800 && c <= 0xDFFF)
                            || (c & 0xFFFE) == 0xFFFE
                        ? ' '
                        : c));
    return legal.toString();
  }
}
