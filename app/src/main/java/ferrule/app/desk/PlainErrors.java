package ferrule.app.desk;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import org.eclipse.jetty.http.HttpHeader;
import org.eclipse.jetty.server.Request;
import org.eclipse.jetty.server.Response;
import org.eclipse.jetty.util.Callback;

/**
 * Answers requests so malformed that no page of the desk is asked for them: one line of plain text,
 * no details of the program.
 */
final class PlainErrors implements Request.Handler {

  @Override
  public boolean handle(Request request, Response response, Callback callback) {
    Guard.HEADERS.forEach((name, value) -> response.getHeaders().put(name, value));
    response.getHeaders().put(HttpHeader.CONTENT_TYPE, "text/plain; charset=utf-8");
    String line =
        response.getStatus() < 500
            ? "This request could not be understood. Go to the first page of the desk: /\n"
            : "Something went wrong inside Ferrule. The job has not been changed.\n";
    byte[] bytes = line.getBytes(StandardCharsets.UTF_8);
    response.write(true, ByteBuffer.wrap(bytes), callback);
    return true;
  }
}
