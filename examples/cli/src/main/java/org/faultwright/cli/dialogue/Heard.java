package org.faultwright.cli.dialogue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import org.faultwright.cli.dialogue.Question.Choice;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.pack.Point;
import org.faultwright.problem.Nearest;

/** What a typed line means at a question. */
sealed interface Heard {

  /** One of the choices. */
  record Chosen(Choice choice) implements Heard {}

  /** A reading. */
  record Value(ReadingValue value) implements Heard {}

  /** Something to do besides; {@code rest} is what stands behind the word. */
  record Command(Verb verb, String rest) implements Heard {}

  /** Nothing was typed. */
  record Nothing() implements Heard {}

  /** It could not be understood; {@code words} say why, and what could be typed. */
  record Unclear(String words) implements Heard {}

  /** A state goes by so many of its first letters: fewer may be meant for something to do. */
  int FEWEST_LETTERS = 3;

  /** Longer lines are a slip: something was pasted. */
  int MOST_SIGNS = 1000;

  /** A row of a pin table: a pin, a separator, what it reads. */
  Pattern TABLE_ROW =
      Pattern.compile("(?i)(pin|net|point)[,;\t].*|[a-z0-9_+-]{1,12}(;|\t|,(?=[^,]*[.,]|[a-z])).*");

  /** What programs and people write where there is no number. */
  Pattern NO_NUMBER = Pattern.compile("(?i)[+-]?(nan|inf|infinite|infinity|\u221e)|-{2,}|n/?a");

  /** What people type instead of the words of the help page. */
  Map<String, Verb> PHRASES =
      Map.of(
          "don't know", Verb.CANNOT_TELL,
          "dont know", Verb.CANNOT_TELL,
          "not known", Verb.CANNOT_TELL,
          "cannot tell", Verb.CANNOT_TELL,
          "could not do", Verb.COULD_NOT_DO,
          "couldn't do", Verb.COULD_NOT_DO,
          "cannot do", Verb.COULD_NOT_DO,
          "what if", Verb.IF,
          "other steps", Verb.OTHER,
          "exit", Verb.QUIT);

  /** Makes sense of a line. */
  static Heard of(String line, Question question) {
    String typed = bare(line);
    if (typed.isEmpty()) {
      return new Nothing();
    } else if (typed.lines().count() > 1
        || question.point().isPresent() && TABLE_ROW.matcher(typed).matches()) {
      return new Unclear(
          "That is a table, and nothing was kept of it. Put it into a file; the command pins"
              + " --table reads it, and --fact makes facts for the case of it.");
    } else if (typed.length() > MOST_SIGNS) {
      return new Unclear("That is " + typed.length() + " signs long; nothing was kept of it.");
    }
    Optional<Verb> sign = Verb.bySign(typed);
    if (sign.isPresent() && !(sign.get() == Verb.CANNOT_TELL && question.point().isPresent())) {
      return new Command(sign.get(), "");
    }
    String[] halves = typed.split("\\s+", 2);
    String first = halves[0].toLowerCase(Locale.ROOT);
    String rest = halves.length > 1 ? halves[1] : "";
    Optional<Command> phrase = phrase(typed);
    if (phrase.isPresent()) {
      return phrase.get();
    }
    Optional<Verb> word = Verb.byWord(first);
    if (word.isPresent()) {
      return new Command(word.get(), rest);
    }
    if (question.point().isPresent() && BenchReading.looksLikeOne(typed)) {
      return reading(typed, question);
    }
    Optional<Heard> state = question.point().flatMap(point -> state(typed, point));
    if (state.isPresent()) {
      return state.get();
    }
    return chosen(typed, question)
        .or(() -> abbreviated(first, rest))
        .orElseGet(() -> unknown(typed, question));
  }

  /** Without what comes along when a cell of a table is pasted: its mark of order, its quotes. */
  private static String bare(String line) {
    String typed = line.replace("\uFEFF", "").strip();
    return typed.length() > 1 && typed.startsWith("\"") && typed.endsWith("\"")
        ? typed.substring(1, typed.length() - 1).strip()
        : typed;
  }

  /** Other ways to say the same. */
  private static Optional<Command> phrase(String typed) {
    for (Map.Entry<String, Verb> phrase : PHRASES.entrySet()) {
      String words = phrase.getKey();
      if (typed.toLowerCase(Locale.ROOT).replace('\u2019', '\'').startsWith(words)) {
        return Optional.of(new Command(phrase.getValue(), typed.substring(words.length()).strip()));
      }
    }
    return Optional.empty();
  }

  private static Heard reading(String typed, Question question) {
    try {
      return new Value(BenchReading.parse(typed, question.point().orElseThrow()));
    } catch (IllegalArgumentException e) {
      String why = e.getMessage();
      String repeated = ": " + typed;
      return new Unclear(
          "'"
              + typed
              + "' is no reading here: "
              + (why.endsWith(repeated)
                  ? why.substring(0, why.length() - repeated.length())
                  : why));
    }
  }

  /** A state of the point, seen without a number: by its name, or its first letters. */
  private static Optional<Heard> state(String typed, Point point) {
    Optional<ReadingValue.Named> named = point.named(typed);
    if (named.isEmpty() && typed.length() >= FEWEST_LETTERS) {
      String begin = simple(typed);
      List<String> fitting =
          point.stateNames().stream().filter(name -> name.startsWith(begin)).toList();
      if (fitting.size() > 1) {
        return Optional.of(
            new Unclear("'" + typed + "' may be: " + String.join(", ", fitting) + "."));
      }
      named = fitting.stream().findFirst().flatMap(point::named);
    }
    return named.map(Value::new);
  }

  /** By number, or by as many letters as it takes. */
  private static Optional<Heard> chosen(String typed, Question question) {
    List<Choice> choices = question.choices();
    if (typed.matches("[0-9]{1,4}")) {
      int number = Integer.parseInt(typed);
      if (number >= 1 && number <= choices.size()) {
        return Optional.of(new Chosen(choices.get(number - 1)));
      }
      return Optional.of(
          new Unclear(
              choices.isEmpty()
                  ? "There is nothing to choose by number here."
                  : "There is no " + typed + " here; type " + numbers(choices) + "."));
    }
    String begin = simple(typed);
    List<Choice> fitting = choices.stream().filter(c -> begins(c, begin)).toList();
    if (fitting.size() == 1) {
      return Optional.of(new Chosen(fitting.get(0)));
    } else if (fitting.size() > 1) {
      return Optional.of(
          new Unclear(
              "'"
                  + typed
                  + "' may be: "
                  + String.join(", ", fitting.stream().map(Choice::words).toList())
                  + ". Type its number."));
    }
    return Optional.empty();
  }

  /** A choice may also be named by what it means beside what was seen before: "holds: gone". */
  private static boolean begins(Choice choice, String begin) {
    return Arrays.stream(choice.words().split(": "))
        .anyMatch(part -> simple(part).startsWith(begin));
  }

  private static String simple(String words) {
    return words.toLowerCase(Locale.ROOT).replaceAll("[ _-]+", "-");
  }

  private static Optional<Heard> abbreviated(String first, String rest) {
    List<Verb> verbs = Verb.beginning(first);
    return verbs.size() == 1 ? Optional.of(new Command(verbs.get(0), rest)) : Optional.empty();
  }

  private static String numbers(List<Choice> choices) {
    return choices.size() == 1 ? "1" : "1 to " + choices.size();
  }

  private static Heard unknown(String typed, Question question) {
    if (question.point().isPresent() && NO_NUMBER.matcher(typed).matches()) {
      return new Unclear(
          "'"
              + typed
              + "' is no number. What is beyond the range is OL; with no reading at all, press"
              + " enter.");
    }
    List<String> known = new ArrayList<>(Verb.words());
    question.choices().forEach(c -> known.add(simple(c.words())));
    question.point().ifPresent(point -> known.addAll(point.stateNames()));
    String shown = typed.length() > 30 ? typed.substring(0, 30) + "..." : typed;
    String way =
        Nearest.of(simple(typed), known)
            .map(near -> "did you mean '" + near + "'?")
            .orElse(
                question.point().isPresent()
                    ? "type what the display shows, OL, "
                        + String.join(", ", question.point().get().stateNames())
                        + ", or ? for help."
                    : question.choices().isEmpty()
                        ? "type ? for help."
                        : "type " + numbers(question.choices()) + ", or ? for help.");
    return new Unclear("'" + shown + "' means nothing here; " + way);
  }
}
