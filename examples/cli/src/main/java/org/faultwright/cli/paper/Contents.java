package org.faultwright.cli.paper;

import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.faultwright.cli.paper.Block.Entry;
import org.faultwright.cli.text.ComparisonText;
import org.faultwright.cli.text.Dangers;
import org.faultwright.cli.text.Figures;
import org.faultwright.cli.text.Foreword;
import org.faultwright.cli.text.Naming;
import org.faultwright.cli.text.PlanWalk;
import org.faultwright.cli.text.PlanWalk.Act;
import org.faultwright.cli.text.PlanWalk.Way;
import org.faultwright.cli.text.PlanWords;
import org.faultwright.cli.text.RepairOrNotText;
import org.faultwright.cli.text.StepWords;
import org.faultwright.pack.CautionId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;

/** What stands on the paper, from the danger at its top to the basis at its end. */
final class Contents {

  private static final DateTimeFormatter MADE =
      DateTimeFormatter.ofPattern("d MMMM yyyy, HH:mm z", Locale.ENGLISH);

  /** Below a drawing, in print. */
  private static final int CHARACTERS_A_LINE = 100;

  private static final double LINE = 16;

  private final PlanPaper paper;
  private final Pack pack;
  private final PlanWalk walk;
  private final int stepsInAll;
  private final List<Block> blocks = new ArrayList<>();

  private Contents(PlanPaper paper) {
    this.paper = paper;
    this.pack = paper.pack();
    PlanWalk whole = PlanWalk.of(paper.plan(), pack);
    this.stepsInAll = whole.acts().size();
    this.walk = whole.likeliest(paper.mostSteps());
  }

  static List<Block> of(PlanPaper paper) {
    Contents contents = new Contents(paper);
    contents.addHead();
    contents.addWarnings();
    contents.addBench();
    contents.addDrawings();
    contents.addSteps();
    contents.addWorth();
    contents.blocks.add(new Block.NewSheet());
    contents.blocks.addAll(CustomerContents.of(paper));
    return contents.blocks;
  }

  /** When the paper was made. */
  static String made(PlanPaper paper) {
    return MADE.format(paper.made());
  }

  private void addHead() {
    List<Entry> entries = new ArrayList<>();
    entries.add(entry("Device", pack.title() + (pack.invented() ? " (invented)" : "")));
    paper
        .answer()
        .caseFile()
        .intake()
        .board()
        .ifPresent(b -> entries.add(entry("Board", b.value())));
    entries.add(entry("Case", paper.answer().caseFile().name()));
    entries.add(entry("Made", made(paper)));
    blocks.add(new Block.Entries(entries));
  }

  private void addWarnings() {
    for (Dangers.Danger d : Dangers.of(pack, paper.answer())) {
      blocks.add(new Block.Warning(d.label(), d.text()));
    }
    Foreword.of(pack, paper.answer())
        .ifPresent(
            due -> {
              String why = String.join("; ", due.reasons());
              String asks =
                  due.consents().stream()
                      .map(c -> ". Ask: " + Naming.consent(pack, c))
                      .collect(Collectors.joining());
              blocks.add(
                  new Block.Warning(
                      "BEFORE THE PLAN",
                      due.headline() + (why.isEmpty() ? "" : " (" + why + ")") + asks));
            });
    if (!paper.plan().asIfAgreed().isEmpty()) {
      blocks.add(
          new Block.Warning("NOT AGREED YET", PlanWords.AS_IF_AGREED + " " + consents(paper)));
    }
  }

  /** What the customer is taken to agree to. */
  static String consents(PlanPaper paper) {
    return paper.plan().asIfAgreed().stream()
        .map(consent -> Naming.consent(paper.pack(), consent))
        .collect(Collectors.joining(". "));
  }

  private void addBench() {
    blocks.add(new Block.Heading(2, "At the bench"));
    List<Entry> entries = new ArrayList<>();
    entries.add(
        entry(
            "Do first",
            walk.acts().isEmpty()
                ? Naming.sentence(PlanWords.leads(walk.root()))
                : "1, " + walk.acts().get(0).headline()));
    entries.addAll(CustomerContents.expectations(paper));
    addAtHand(entries);
    blocks.add(new Block.Entries(entries));
    blocks.add(
        new Block.Paragraph(
            "Follow the numbers. The percentage of a result says how often it comes out once its"
                + " step is done. Tell each result to Faultwright: an alarm or a hold goes before"
                + " this plan, and so do local rules and licensed practice."));
    if (walk.acts().size() < stepsInAll) {
      blocks.add(
          new Block.Paragraph(
              "Shown: the likeliest "
                  + walk.acts().size()
                  + " of "
                  + stepsInAll
                  + " steps. A result that leads beyond them says what to go on with: tell the"
                  + " results so far and plan again there, or print all with --page-steps "
                  + stepsInAll
                  + "."));
    }
    if (!walk.acts().isEmpty()) {
      blocks.add(new Block.Legend());
    }
  }

  /** Parts and tools that may be wanted, each once. */
  private void addAtHand(List<Entry> entries) {
    Map<String, Set<Integer>> wanted = new LinkedHashMap<>();
    for (Act act : walk.acts()) {
      for (StepWords.Line line :
          StepWords.details(pack, paper.plan().shop(), pack.steps().get(act.step()))) {
        if (line.label().equals("part") || line.label().equals("tools")) {
          for (String one :
              line.label().equals("part")
                  ? List.of(line.text())
                  : List.of(line.text().split("; "))) {
            wanted
                .computeIfAbsent(line.label() + ":" + one, k -> new TreeSet<>())
                .add(act.number());
          }
        }
      }
    }
    entries.addAll(atHand(wanted, "part:", "Parts"));
    entries.addAll(atHand(wanted, "tools:", "Tools"));
  }

  private static List<Entry> atHand(Map<String, Set<Integer>> wanted, String kind, String label) {
    String all =
        wanted.entrySet().stream()
            .filter(e -> e.getKey().startsWith(kind))
            .map(e -> e.getKey().substring(kind.length()) + " (" + steps(e.getValue()) + ")")
            .collect(Collectors.joining("; "));
    return all.isEmpty() ? List.of() : List.of(entry(label, all));
  }

  private static String steps(Set<Integer> numbers) {
    return (numbers.size() == 1 ? "step " : "steps ")
        + numbers.stream().map(String::valueOf).collect(Collectors.joining(", "));
  }

  private void addDrawings() {
    List<Part> parts = Parts.of(walk, Parts.HEIGHT, this::heightBelow);
    if (parts.isEmpty()) {
      return;
    }
    blocks.add(new Block.Heading(2, "The plan at a glance"));
    Map<Integer, String> arrivals = PlanWords.arrivals(walk);
    List<Block.Drawn> drawn = new ArrayList<>();
    for (Part part : parts) {
      String from = arrivals.getOrDefault(part.root().number(), "");
      String caption =
          "Part "
              + part.number()
              + " of "
              + parts.size()
              + (part.continued() ? ", more results of step " : ", from step ")
              + part.root().number()
              + (from.isEmpty() ? "" : " (" + from + ")");
      Set<CautionId> cautions = new LinkedHashSet<>();
      part.acts().forEach(act -> cautions.addAll(act.cautions()));
      drawn.add(
          new Block.Drawn(
              part,
              caption,
              walk.cautions().stream().filter(cautions::contains).map(this::lettered).toList()));
    }
    blocks.add(new Block.Drawings(drawn));
  }

  /** About how much room a caution takes below a drawing: lines of small letters. */
  private double heightBelow(CautionId caution) {
    int lines = 1 + pack.cautions().get(caution).text().length() / CHARACTERS_A_LINE;
    return LINE * lines + 6;
  }

  private Entry lettered(CautionId caution) {
    return new Entry(walk.letter(caution), pack.cautions().get(caution).text(), true);
  }

  private void addSteps() {
    if (walk.acts().isEmpty()) {
      return;
    }
    blocks.add(new Block.Heading(2, "Step by step"));
    Map<Integer, String> arrivals = PlanWords.arrivals(walk);
    Map<Step, Integer> told = new LinkedHashMap<>();
    Map<CautionId, Integer> warned = new LinkedHashMap<>();
    for (Act act : walk.acts()) {
      String cases = Figures.percent(act.p()) + " of all cases";
      String from = arrivals.get(act.number());
      blocks.add(
          new Block.Doing(
              act.number(),
              act.headline(),
              from == null ? "Begin here" : Naming.sentence(from) + "; " + cases,
              entries(act, told, warned),
              act.ways().stream().map(Contents::result).toList()));
    }
  }

  private void addWorth() {
    paper
        .repairOrNot()
        .ifPresent(
            asked -> {
              blocks.add(new Block.Heading(2, "Repair or not"));
              blocks.add(
                  new Block.Entries(
                      List.of(
                          entry("Worth it", Naming.sentence(RepairOrNotText.worth(asked))),
                          entry("Tell", Naming.sentence(RepairOrNotText.tell(asked.quote()))),
                          entry(
                              "Rests on",
                              Naming.sentence(
                                  RepairOrNotText.restsOn(
                                      pack, asked.quote(), paper.answer().caseFile().intake()))))));
            });
    paper
        .compared()
        .ifPresent(
            compared -> {
              blocks.add(new Block.Heading(2, "Beside rules of thumb"));
              blocks.add(
                  new Block.Table(
                      ComparisonText.TITLES.stream()
                          .map(title -> Naming.sentence(title.toLowerCase(Locale.ENGLISH)))
                          .toList(),
                      compared.rows().stream().map(ComparisonText::cells).toList()));
              ComparisonText.remarks(compared)
                  .forEach(remark -> blocks.add(new Block.Paragraph(remark)));
            });
  }

  private List<Entry> entries(Act act, Map<Step, Integer> told, Map<CautionId, Integer> warned) {
    List<Entry> entries = new ArrayList<>();
    entries.add(entry("Takes", PlanWords.takes(act.spend())));
    if (!act.turns().isEmpty()) {
      entries.add(entry("First", String.join(", then ", act.turns())));
    }
    for (CautionId caution : walk.cautions().stream().filter(act.cautions()::contains).toList()) {
      String text = pack.cautions().get(caution).text();
      Integer before = warned.putIfAbsent(caution, act.number());
      entries.add(
          new Entry(
              "Caution " + walk.letter(caution),
              before == null ? text : Naming.caution(text) + " (in full at step " + before + ")",
              true));
    }
    act.limits().forEach(limit -> entries.add(new Entry("At most", limit, true)));
    Step step = pack.steps().get(act.step());
    Integer before = told.putIfAbsent(step, act.number());
    List<StepWords.Line> details = StepWords.details(pack, paper.plan().shop(), step);
    if (before == null) {
      details.forEach(line -> entries.add(entry(Naming.sentence(line.label()), line.text())));
    } else if (!details.isEmpty()) {
      entries.add(entry("How", "as in step " + before));
    }
    act.proofs().forEach(proof -> entries.add(entry("Prove", proof)));
    return entries;
  }

  private static Block.Result result(Way way) {
    String seen = Naming.sentence(way.seen()) + ", " + Figures.percent(way.p());
    return way.to() instanceof Act next
        ? new Block.Result(
            seen,
            way.holds(),
            next.number() + ", " + next.headline(),
            OptionalInt.of(next.number()))
        : new Block.Result(seen, way.holds(), PlanWords.leads(way.to()), OptionalInt.empty());
  }

  private static Entry entry(String label, String text) {
    return new Entry(label, text, false);
  }
}
