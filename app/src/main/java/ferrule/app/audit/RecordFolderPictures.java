package ferrule.app.audit;

import ferrule.app.face.DrawnPictures;
import ferrule.record.RecordFiles;
import ferrule.store.intake.Sha256;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/** The pictures that lie in a record, by the hash of their bytes. */
record RecordFolderPictures(Path folder) implements DrawnPictures.Source {

  @Override
  public Optional<byte[]> bytes(String sha256) throws IOException {
    Path pictures = folder.resolve(RecordFiles.PICTURES);
    if (!Files.isDirectory(pictures)) {
      return Optional.empty();
    }
    List<Path> found;
    try (Stream<Path> list = Files.list(pictures)) {
      found =
          list.filter(p -> String.valueOf(p.getFileName()).startsWith(sha256 + "."))
              .sorted()
              .toList();
    }
    for (Path file : found) {
      byte[] bytes = Files.readAllBytes(file);
      if (Sha256.of(bytes).equals(sha256)) {
        return Optional.of(bytes);
      }
    }
    return Optional.empty();
  }
}
