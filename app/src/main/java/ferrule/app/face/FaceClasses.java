package ferrule.app.face;

import ferrule.core.face.FaceClass;
import ferrule.core.face.FacePicture;
import ferrule.core.face.PortSubject;
import ferrule.core.optics.FibreKind;
import ferrule.core.plant.Connector;
import ferrule.core.plant.Cord;
import ferrule.core.plant.Link;
import ferrule.core.plant.LinkEnd;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * The class that a listed picture is graded by: the one its row names; else that of the connector
 * at the port or cord end it shows; else single-mode PC, the strictest.
 */
final class FaceClasses {

  private final Map<String, Set<FaceClass>> ports = new HashMap<>();
  private final Map<String, Optional<FaceClass>> cordEnds = new HashMap<>();

  FaceClasses(Collection<Link> links, Collection<Cord> cords) {
    for (Link link : links) {
      for (LinkEnd end : List.of(link.a(), link.b())) {
        FaceClass its = FaceClass.of(link.category().kind(), end.connector());
        for (String name : end.names()) {
          ports.computeIfAbsent(name, k -> new HashSet<>()).add(its);
        }
      }
    }
    for (Cord cord : cords) {
      FibreKind kind = cord.category().kind();
      cordEnds.put(cord.id() + "/1", of(kind, cord.end1().connector()));
      cordEnds.put(cord.id() + "/2", of(kind, cord.end2().connector()));
    }
  }

  private static Optional<FaceClass> of(FibreKind kind, Optional<Connector> connector) {
    return kind == FibreKind.MULTIMODE
        ? Optional.of(FaceClass.MM)
        : connector.map(c -> FaceClass.of(kind, c));
  }

  FaceClass of(FacePicture listed) {
    return FaceClass.ofId(listed.faceClass())
        .or(() -> ofSubject(listed.subject()))
        .orElse(FaceClass.SM_PC);
  }

  private Optional<FaceClass> ofSubject(String subject) {
    Optional<PortSubject> port = PortSubject.of(subject);
    if (port.isPresent()) {
      Set<FaceClass> found = ports.getOrDefault(port.get().port(), Set.of());
      return found.size() == 1 ? Optional.of(found.iterator().next()) : Optional.empty();
    }
    return subject.startsWith("cord:")
        ? cordEnds.getOrDefault(subject.substring("cord:".length()), Optional.empty())
        : Optional.empty();
  }
}
