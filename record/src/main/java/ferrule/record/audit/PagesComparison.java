package ferrule.record.audit;

import ferrule.record.RecordFiles;
import ferrule.record.audit.Difference.Kind;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.function.Consumer;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;

/** What the pages of a record say against what they should say, page by page. */
final class PagesComparison {

  private PagesComparison() {}

  /**
   * Compares two PDF files by their text.
   *
   * @return whether the texts are equal
   * @throws IOException if one of them cannot be read
   */
  static boolean compare(Path record, Path remade, Consumer<Difference> found) throws IOException {
    try (PDDocument says = Loader.loadPDF(record.toFile());
        PDDocument follows = Loader.loadPDF(remade.toFile())) {
      int pages = Math.min(says.getNumberOfPages(), follows.getNumberOfPages());
      boolean equal = says.getNumberOfPages() == follows.getNumberOfPages();
      if (!equal) {
        found.accept(
            new Difference(
                Kind.DIFFERS,
                RecordFiles.PAGES,
                0,
                "number of pages",
                Integer.toString(says.getNumberOfPages()),
                Integer.toString(follows.getNumberOfPages())));
      }
      for (int page = 1; page <= pages; page++) {
        List<String> one = text(says, page).lines().toList();
        List<String> other = text(follows, page).lines().toList();
        if (!one.equals(other)) {
          equal = false;
          int line = 0;
          while (line < one.size()
              && line < other.size()
              && one.get(line).equals(other.get(line))) {
            line++;
          }
          found.accept(
              new Difference(
                  Kind.DIFFERS,
                  RecordFiles.PAGES,
                  0,
                  "page " + page,
                  line < one.size() ? one.get(line) : "",
                  line < other.size() ? other.get(line) : ""));
        }
      }
      return equal;
    }
  }

  private static String text(PDDocument document, int page) throws IOException {
    PDFTextStripper stripper = new PDFTextStripper();
    stripper.setStartPage(page);
    stripper.setEndPage(page);
    return stripper.getText(document);
  }
}
