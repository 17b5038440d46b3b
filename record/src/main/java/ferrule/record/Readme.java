package ferrule.record;

import ferrule.record.page.RecordPage;

/** The page of a record that says which file is what, and how to check them. */
final class Readme {

  private Readme() {}

  static String of(RecordPage page, About about) {
    return page.cover().title().replaceAll("\\R", " ")
        + "\nRecord of fibre loss tests, issued "
        + page.issuedAt()
        + " with Ferrule "
        + page.version()
        + about
            .since()
            .map(
                since ->
                    "\nIssue "
                        + about.issue()
                        + ", after the one issued "
                        + since.issuedAt()
                        + " with the first "
                        + since.entries()
                        + " entries")
            .orElse("")
        + FILES
        + about.signedBy().map(Readme::signed).orElse(UNSIGNED)
        + CHECKING
        + WORDS;
  }

  private static final String FILES =
      """


      record.pdf      the pages to read; begin here
      audit.html      a page that checks this folder in a browser: open it, choose the folder

      What was found
      judgement.json  everything on the pages and more, for programs: every fibre, reading,
                      zero, doubt and action; numbers unrounded
      fibres.csv      one row for each fibre: where it runs, where it stands and why
      readings.csv    one row for each reading handed in, replaced ones included; unrounded
      rulebook.txt    every figure of the rulebook with its source, to read
      faces.jsonl     if pictures of end faces were graded: one line for each grade
      applications.csv
                      if the job wants applications: one row for each link and application
      changes.csv     if this is not the first issue: each fibre of which something is otherwise
                      than in the issue before, and what

      What it was made from
      entries.jsonl   every entry of the job, those corrected later and failed attempts included,
                      each with the hash of the one before it
      job.toml        the paper of the job: what was agreed
      rulebook.toml   the rulebook, as a file that Ferrule reads
      pictures        pictures of end faces, each named after the SHA-256 hash of its bytes

      What it is
      record.json     format, time of issue, version of Ferrule, head of the chain of entries, key
      dictionary.csv  what every column and key means, with its unit
      README.txt      this page
      public-key.pem  if the record is signed: the open half of the key
      index.txt       the SHA-256 hash of each file above, as sha256sum prints and checks it
      index.sig       if the record is signed: the signature over index.txt

      """;

  private static final String UNSIGNED =
      """
      This record is not signed: whoever changes a file can change its hash as well.
      """;

  private static String signed(String fingerprint) {
    return """
    This record is signed with the key of this fingerprint (SHA-256 of the open half):
      %s
    The signature shows that nobody without the secret half of that key has changed a byte since.
    It does not show whose key it is: compare the fingerprint with one that you have from the
    signer by another way. It does not show when the record was signed, and not that the readings
    are true.
    """
        .formatted(fingerprint);
  }

  private static final String CHECKING =
      """

      To check it
        ferrule audit FOLDER            signature, hashes and chain; and everything computed anew
        audit.html                      signature, hashes, chain, and the decision of each reading
        sha256sum --check index.txt     hashes alone
        openssl pkeyutl -verify -pubin -inkey public-key.pem -rawin -in index.txt -sigfile index.sig
                                        signature alone
      A page that came with the record could have been changed with it: where much hangs on it,
      take audit.html from a copy of Ferrule.

      """;

  private static final String WORDS =
      """
      Text is UTF-8. Tables are comma separated with a decimal point; times are UTC. In a table,
      an apostrophe before a text keeps spreadsheets from taking it for a formula.
      In record.pdf, \uFFFD stands for a letter that the fonts do not hold; the other
      files have the letter.

      A limit can be added up again: in judgement.json each reading has limit_terms, a count and
      the number of a part, and limit_parts gives each part's loss and its source.

      proved    every required reading is there, within its limit, and not in doubt
      failed    a reading that can be believed is over its limit
      doubtful  a doubt holds readings back: they prove nothing until it is settled
      open      something required is missing, or a reading lies too near its limit

      Figures marked † are from memory: confirm against the standard.
      Light in a fibre is invisible and may hurt. Never look into a fibre that may be lit.
      Local codes, the network owner and licensed practice decide.
      """;
}
