/** The index of a record's files, the key that signs it, and how both are verified. */
@NullMarked
package ferrule.record.seal;

import org.jspecify.annotations.NullMarked;
