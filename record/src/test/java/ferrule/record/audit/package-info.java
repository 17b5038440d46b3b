/** Tests of what seals a record and of what differs in one. */
@NullMarked
package ferrule.record.audit;

import org.jspecify.annotations.NullMarked;
