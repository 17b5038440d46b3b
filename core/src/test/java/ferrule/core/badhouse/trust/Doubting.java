package ferrule.core.badhouse.trust;

/** Stands for the last package of the row. Its package is not null-marked, wrong on purpose. */
public final class Doubting {}
