/**
 * Core against values from outside: standards' own examples, textbooks, closed forms. The rows are
 * data under {@code resources/checks}, each with its source and how far it can be trusted.
 */
@NullMarked
package ferrule.core.checks;

import org.jspecify.annotations.NullMarked;
