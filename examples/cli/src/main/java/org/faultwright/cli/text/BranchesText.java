package org.faultwright.cli.text;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.faultwright.casefile.Fact;
import org.faultwright.diagnosis.Answer;
import org.faultwright.diagnosis.Outlook;
import org.faultwright.diagnosis.Posterior;
import org.faultwright.explanation.FactWords;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Pack;

/** What would follow from each of several suppositions: a table of causes by branch. */
public final class BranchesText {

  private static final int MOST_CAUSES_OF_EACH = 3;
  private static final int COLUMN = 8;
  private static final String NOW = "now";

  /**
   * One supposition.
   *
   * @param facts what is supposed
   * @param answer what then holds
   */
  public record Branch(List<Fact> facts, Answer answer) {

    /** Copies the list. */
    public Branch {
      facts = List.copyOf(facts);
    }
  }

  private final Page page;
  private final Pack pack;

  /** Writes on the page about a device of the pack. */
  public BranchesText(Page page, Pack pack) {
    this.page = page;
    this.pack = pack;
  }

  /**
   * Writes the table, what each column stands for, and what to do next in each.
   *
   * @param now the case as it is
   */
  public void write(Answer now, List<Branch> branches) {
    Map<String, Answer> columns = new LinkedHashMap<>();
    columns.put(NOW, now);
    page.heading("WHAT IF");
    for (int i = 0; i < branches.size(); i++) {
      String letter = letter(i);
      columns.put(letter, branches.get(i).answer());
      page.hanging(
          "  " + letter + "  ", Ink.STRONG, words(pack, branches.get(i).facts()), Ink.PLAIN);
    }
    int together = Math.max(1, (page.screen().width() - roomForTitles()) / COLUMN - 1);
    List<String> names = new ArrayList<>(columns.keySet());
    names.remove(NOW);
    List<CauseId> rows = rows(columns.values());
    for (int from = 0; from < names.size(); from += together) {
      List<String> shown = new ArrayList<>(List.of(NOW));
      shown.addAll(names.subList(from, Math.min(names.size(), from + together)));
      writeTable(columns, shown, rows);
    }
    page.gap();
    columns.forEach(this::writeNext);
  }

  private int roomForTitles() {
    return page.screen().isNarrow() ? 16 : 24;
  }

  /** The same in sentences, one a line. */
  public static List<String> spoken(Pack pack, List<Branch> branches) {
    List<String> said = new ArrayList<>();
    for (Branch branch : branches) {
      String leaders =
          branch.answer().posterior().stream()
              .flatMap(p -> p.ranking().stream().limit(MOST_CAUSES_OF_EACH))
              .map(r -> Ranking.title(pack, r) + ", " + Figures.percent(r.p()))
              .collect(Collectors.joining("; then "));
      said.add(
          "If "
              + words(pack, branch.facts())
              + ": "
              + (leaders.isEmpty() ? "nothing ranks" : leaders)
              + ". Next would be: "
              + next(pack, branch.answer())
              + ".");
    }
    return said;
  }

  private void writeTable(Map<String, Answer> columns, List<String> shown, List<CauseId> rows) {
    page.gap();
    page.hanging(
        shown.stream().map(BranchesText::right).collect(Collectors.joining()),
        Ink.STRONG,
        "",
        Ink.PLAIN);
    for (CauseId row : rows) {
      String cells =
          shown.stream()
                  .map(name -> right(cell(columns.get(name), row)))
                  .collect(Collectors.joining())
              + "  ";
      page.hanging(cells, Ink.BAR, page.cut(pack.causes().get(row).title(), cells), Ink.PLAIN);
    }
  }

  private static String cell(Answer answer, CauseId cause) {
    return answer.posterior().map(p -> Ranking.number(p.p(cause))).orElse("-");
  }

  /** The leaders of every branch, in the order of their best place. */
  private static List<CauseId> rows(Collection<Answer> answers) {
    Set<CauseId> rows = new LinkedHashSet<>();
    for (Answer answer : answers) {
      answer
          .posterior()
          .ifPresent(
              p ->
                  p.ranking().stream()
                      .limit(MOST_CAUSES_OF_EACH)
                      .forEach(r -> rows.add(r.cause())));
    }
    return rows.stream().sorted(Comparator.comparingDouble(c -> -most(answers, c))).toList();
  }

  private static double most(Collection<Answer> answers, CauseId cause) {
    return answers.stream()
        .flatMap(a -> a.posterior().stream())
        .mapToDouble((Posterior p) -> p.p(cause))
        .max()
        .orElse(0);
  }

  private void writeNext(String name, Answer answer) {
    page.hanging(
        (name.equals(NOW) ? NOW : name + "  ") + "  ", Ink.STRONG, next(pack, answer), Ink.PLAIN);
  }

  private static String next(Pack pack, Answer answer) {
    String danger = answer.findings().alarms().isEmpty() ? "" : "ALARM; ";
    String hold = answer.findings().holds().isEmpty() ? "" : "HOLD; ";
    return danger
        + hold
        + (answer.outlook() instanceof Outlook.ImpossibleEvidence
            ? "these facts cannot all be true"
            : Wording.headline(pack, answer.advice().primary()));
  }

  private static String words(Pack pack, List<Fact> facts) {
    return facts.stream().map(f -> FactWords.of(pack, f)).collect(Collectors.joining("; "));
  }

  /** A, B, ... Z, then AA, AB, ... */
  static String letter(int index) {
    String last = Character.toString((char) ('A' + index % 26));
    return index < 26 ? last : letter(index / 26 - 1) + last;
  }

  private static String right(String text) {
    return " ".repeat(Math.max(1, COLUMN - text.length())) + text;
  }
}
