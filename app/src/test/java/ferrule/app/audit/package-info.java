@NullMarked
package ferrule.app.audit;

import org.jspecify.annotations.NullMarked;
