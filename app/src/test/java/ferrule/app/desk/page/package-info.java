/** Tests of what the desk's pages show. */
@NullMarked
package ferrule.app.desk.page;

import org.jspecify.annotations.NullMarked;
