package ferrule.core.badhouse.store;

/** Stands for a module above core. */
public final class Table {}
