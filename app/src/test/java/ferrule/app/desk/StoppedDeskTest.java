package ferrule.app.desk;

import static org.assertj.core.api.Assertions.assertThat;

import ferrule.store.job.JobFile;
import java.net.ServerSocket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A desk that is stopped as it should be leaves one whole file, that can be copied as it is. */
class StoppedDeskTest {

  @Test
  void whatWasTypedStandsInTheOneFileOnceTheDeskIsStopped(@TempDir Path temp) throws Exception {
    Path job = TypingJob.make(temp, 2);
    int port;
    try (ServerSocket socket = new ServerSocket(0)) {
      port = socket.getLocalPort();
    }
    try (RunningDesk desk = new RunningDesk(job, port);
        JobFileSource look = JobFileSource.open(job)) {
      HttpResponse<String> stored =
          HttpClient.newHttpClient()
              .send(
                  HttpRequest.newBuilder(URI.create(desk.address() + "enter"))
                      .header("Content-Type", "application/x-www-form-urlencoded")
                      .header("Origin", "http://127.0.0.1:" + port)
                      .POST(
                          HttpRequest.BodyPublishers.ofString(
                              "job="
                                  + look.id()
                                  + "&key=0a1b2c3d-0000-4000-8000-000000000009&fibre=D001/1"
                                  + "&place=Vat+house&direction=A-B&zero=Z1&shows=loss"
                                  + "&operator=Teasel&k1310=0&v1310=0.4"))
                      .build(),
                  HttpResponse.BodyHandlers.ofString());
      assertThat(stored.statusCode()).isEqualTo(303);
      look.close();
      desk.stop();
    }
    assertThat(job.resolveSibling("dye.ferrule-wal")).doesNotExist();
    Path copy = Files.copy(job, temp.resolve("copy.ferrule"));
    try (JobFile file = JobFile.open(copy, Clock.systemUTC(), new Random(1))) {
      assertThat(file.load().job().readings()).hasSize(1);
    }
  }
}
