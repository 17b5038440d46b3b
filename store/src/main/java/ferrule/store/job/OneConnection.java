package ferrule.store.job;

import java.io.PrintWriter;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Proxy;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.SQLFeatureNotSupportedException;
import java.util.logging.Logger;
import javax.sql.DataSource;
import org.jspecify.annotations.Nullable;

/**
 * Lends one open connection to the migration tool, which would close it: a second connection to a
 * database that the first holds would wait for it.
 */
final class OneConnection implements DataSource {

  private final Connection lent;

  OneConnection(Connection connection) {
    this.lent =
        (Connection)
            Proxy.newProxyInstance(
                OneConnection.class.getClassLoader(),
                new Class<?>[] {Connection.class},
                (proxy, method, arguments) -> {
                  if (method.getName().equals("close")) {
                    return null;
                  }
                  try {
                    return method.invoke(connection, arguments);
                  } catch (InvocationTargetException e) {
                    throw e.getCause() == null ? e : e.getCause();
                  }
                });
  }

  @Override
  public Connection getConnection() {
    return lent;
  }

  @Override
  public Connection getConnection(String user, String password) {
    return lent;
  }

  @Override
  public @Nullable PrintWriter getLogWriter() {
    return null;
  }

  @Override
  public void setLogWriter(@Nullable PrintWriter out) {}

  @Override
  public void setLoginTimeout(int seconds) {}

  @Override
  public int getLoginTimeout() {
    return 0;
  }

  @Override
  public Logger getParentLogger() throws SQLFeatureNotSupportedException {
    throw new SQLFeatureNotSupportedException();
  }

  @Override
  public <T> T unwrap(Class<T> wanted) throws SQLException {
    throw new SQLException("Nothing is wrapped");
  }

  @Override
  public boolean isWrapperFor(Class<?> wanted) {
    return false;
  }
}
