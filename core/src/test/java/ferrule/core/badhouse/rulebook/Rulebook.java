package ferrule.core.badhouse.rulebook;

/** Stands for a class that plant must not know. */
public final class Rulebook {}
