package ferrule.store.job;

import ferrule.core.Problem;
import ferrule.store.intake.Sha256;
import java.io.IOException;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Keeps pictures by the hash of their bytes, and gives them back only if it still fits. */
final class PictureTable {

  private final Connection connection;

  PictureTable(Connection connection) {
    this.connection = connection;
  }

  /** Stores those that are not there yet; must be called inside a transaction. */
  void keep(List<KeptPicture> pictures) throws SQLException, JobFileException {
    try (PreparedStatement there =
            connection.prepareStatement("SELECT 1 FROM picture WHERE sha256 = ?");
        PreparedStatement insert =
            connection.prepareStatement("INSERT INTO picture (sha256, bytes) VALUES (?, ?)")) {
      for (KeptPicture picture : pictures) {
        there.setString(1, picture.sha256());
        try (ResultSet found = there.executeQuery()) {
          if (found.next()) {
            continue;
          }
        }
        insert.setString(1, picture.sha256());
        insert.setBytes(2, bytes(picture));
        insert.executeUpdate();
      }
    }
  }

  private static byte[] bytes(KeptPicture picture) throws JobFileException {
    try {
      byte[] bytes = picture.source().read();
      if (fits(bytes, picture.sha256())) {
        return bytes;
      }
    } catch (IOException e) {
      throw new JobFileException(changed(picture), e);
    }
    throw new JobFileException(changed(picture));
  }

  private static Problem changed(KeptPicture picture) {
    return new Problem(
        picture.name(),
        0,
        "",
        "the picture that was graded",
        "another one by now, or none",
        "add the table again when nobody is writing the picture; nothing was changed");
  }

  /** The bytes of a picture; empty if there is none of this hash. */
  Optional<byte[]> find(String sha256) throws SQLException {
    try (PreparedStatement select =
        connection.prepareStatement("SELECT bytes FROM picture WHERE sha256 = ?")) {
      select.setString(1, sha256);
      try (ResultSet found = select.executeQuery()) {
        if (!found.next()) {
          return Optional.empty();
        }
        byte[] bytes = found.getBytes(1);
        if (bytes == null || !fits(bytes, sha256)) {
          throw new DamagedEntryException("a picture whose hash does not fit: " + sha256);
        }
        return Optional.of(bytes);
      }
    }
  }

  /** Copies those that are not there yet from another file; must be called inside a transaction. */
  void copyFrom(PictureTable other) throws SQLException {
    try (PreparedStatement insert =
        connection.prepareStatement(
            "INSERT INTO picture (sha256, bytes) VALUES (?, ?) ON CONFLICT DO NOTHING")) {
      for (String sha256 : other.hashes()) {
        Optional<byte[]> bytes = other.find(sha256);
        if (bytes.isPresent()) {
          insert.setString(1, sha256);
          insert.setBytes(2, bytes.get());
          insert.executeUpdate();
        }
      }
    }
  }

  /** The hashes of all pictures, rising. */
  List<String> hashes() throws SQLException {
    List<String> hashes = new ArrayList<>();
    try (Statement statement = connection.createStatement();
        ResultSet rows = statement.executeQuery("SELECT sha256 FROM picture ORDER BY sha256")) {
      while (rows.next()) {
        hashes.add(String.valueOf(rows.getString(1)));
      }
    }
    return hashes;
  }

  private static boolean fits(byte[] bytes, String sha256) {
    return Sha256.of(bytes).equals(sha256);
  }
}
