/** Records made of jobs, and checked: what the record and the store do together. */
@NullMarked
package ferrule.app.audit;

import org.jspecify.annotations.NullMarked;
