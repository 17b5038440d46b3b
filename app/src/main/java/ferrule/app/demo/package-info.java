/** An invented job with planted trouble, made from a seed: the same seed gives the same bytes. */
@NullMarked
package ferrule.app.demo;

import org.jspecify.annotations.NullMarked;
