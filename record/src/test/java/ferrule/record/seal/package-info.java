/** Tests of what seals a record and of what differs in one. */
@NullMarked
package ferrule.record.seal;

import org.jspecify.annotations.NullMarked;
