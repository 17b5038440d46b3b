/** Tests of the invented job. */
@NullMarked
package ferrule.app.demo;

import org.jspecify.annotations.NullMarked;
