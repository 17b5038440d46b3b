package ferrule.app.demo;

/** The crews. Invented. */
enum Crew {
  ADA("Ada"),
  BRUNO("Bruno"),
  CHIDI("Chidi");

  private final String operator;

  Crew(String operator) {
    this.operator = operator;
  }

  /** Invented first name of the person who writes down. */
  String operator() {
    return operator;
  }
}
