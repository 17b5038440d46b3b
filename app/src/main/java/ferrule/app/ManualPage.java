package ferrule.app;

import java.util.Locale;
import java.util.Map;
import picocli.CommandLine;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;

/**
 * The manual page, in man's own format, made from the command's own model so that it cannot lag.
 */
public final class ManualPage {

  private final StringBuilder page = new StringBuilder();

  private ManualPage() {}

  /** The page of a command and all its sub-commands. */
  public static String of(CommandSpec root, String version) {
    ManualPage manual = new ManualPage();
    manual.line(".TH FERRULE 1 \"\" \"ferrule " + version + "\"");
    manual.line(".SH NAME");
    manual.text(root.name() + " - " + root.usageMessage().description()[0]);
    manual.line(".SH SYNOPSIS");
    manual.line(".B " + root.name());
    manual.text("COMMAND [OPTION]... ARGUMENT...");
    manual.line(".SH DESCRIPTION");
    manual.paragraphs(root.usageMessage().description());
    manual.line(".SH COMMANDS");
    for (Map.Entry<String, CommandLine> entry : root.subcommands().entrySet()) {
      manual.command(entry.getValue().getCommandSpec());
    }
    manual.line(".SH NOTES");
    manual.paragraphs(root.usageMessage().footer());
    return manual.page.toString();
  }

  private void command(CommandSpec spec) {
    line(".SS " + escaped(synopsis(spec)));
    paragraphs(spec.usageMessage().description());
    for (PositionalParamSpec positional : spec.positionalParameters()) {
      argument(positional.paramLabel(), positional);
    }
    for (OptionSpec option : spec.options()) {
      String names = String.join(", ", option.names());
      argument(option.arity().max() > 0 ? names + " " + option.paramLabel() : names, option);
    }
  }

  private static String synopsis(CommandSpec spec) {
    StringBuilder synopsis = new StringBuilder(spec.qualifiedName());
    for (OptionSpec option : spec.options()) {
      if (option.required()) {
        synopsis.append(' ').append(option.shortestName()).append(' ').append(option.paramLabel());
      }
    }
    for (PositionalParamSpec positional : spec.positionalParameters()) {
      synopsis
          .append(' ')
          .append(positional.paramLabel())
          .append(positional.arity().max() > 1 ? "..." : "");
    }
    return synopsis.toString();
  }

  private void argument(String name, ArgSpec argument) {
    line(".TP");
    line(".B " + escaped(name));
    for (String description : argument.description()) {
      String value = argument.defaultValue();
      text(description.replace("${DEFAULT-VALUE}", value == null ? "none" : value));
    }
  }

  private void paragraphs(String[] paragraphs) {
    for (String paragraph : paragraphs) {
      if (!paragraph.isEmpty()) {
        line(".PP");
        text(paragraph);
      }
    }
  }

  private void text(String text) {
    String escaped = escaped(text);
    line(escaped.startsWith(".") || escaped.startsWith("'") ? "\\&" + escaped : escaped);
  }

  private static String escaped(String text) {
    return text.replace("\\", "\\e").replace("-", "\\-").replace("\n", " ");
  }

  private void line(String line) {
    page.append(String.format(Locale.ROOT, "%s%n", line));
  }
}
