package org.faultwright.cli.dialogue;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.CaseReader;
import org.faultwright.casefile.CaseReading;
import org.faultwright.casefile.CaseWriter;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Told;
import org.faultwright.pack.Pack;
import org.faultwright.pack.yaml.YamlNode;
import org.faultwright.pack.yaml.YamlNode.YamlList;
import org.faultwright.pack.yaml.YamlText;

/**
 * The text of a case that changes fact by fact: what a person wrote around the facts, comments
 * included, stays. Where that cannot be done, the whole is written anew. Confined to one thread.
 */
final class CaseText {

  private static final String FACTS = "facts";

  /** Behind a fact that one answer told with the one above it: a comment, for any other reader. */
  private static final String SAME_ANSWER = "  # the same answer";

  /**
   * A text taken apart.
   *
   * @param head the lines above the facts
   * @param facts the lines of each fact, comments behind it included
   * @param tail the lines below the facts
   * @param item what a new fact begins with
   */
  private record Parts(
      CaseFile of,
      List<String> head,
      Map<FactId, List<String>> facts,
      List<String> tail,
      String item) {}

  private final CaseWriter writer;
  private final CaseReader reader;
  private Optional<Parts> parts;

  private CaseText(Pack pack, Optional<Parts> parts) {
    this.writer = new CaseWriter(pack);
    this.reader = new CaseReader(pack);
    this.parts = parts;
  }

  /** Nothing written yet. */
  static CaseText ofNew(Pack pack) {
    return new CaseText(pack, Optional.empty());
  }

  /** A text that has been read. */
  static CaseText of(Pack pack, CaseFile caseFile, String text) {
    return new CaseText(pack, takenApart(caseFile, text));
  }

  /** The facts that one answer told with the one above them, as far as the text says so. */
  Set<FactId> joined() {
    Set<FactId> joined = new LinkedHashSet<>();
    parts.ifPresent(
        p ->
            p.facts()
                .forEach(
                    (id, lines) -> {
                      if (lines.get(0).endsWith(SAME_ANSWER)) {
                        joined.add(id);
                      }
                    }));
    return joined;
  }

  /**
   * The text of the case as it is now. What the case expects goes where it speaks of a fact that
   * has been taken out.
   *
   * @param joined facts that one answer told with the one above them
   */
  String of(CaseFile caseFile, Set<FactId> joined) {
    CaseFile open = caseFile.expectingNothing();
    if (parts.isPresent() && isSameButForFacts(parts.get().of(), caseFile)) {
      Parts now = parts.get();
      String whole = put(now, now.tail(), caseFile.facts(), joined);
      String without = put(now, withoutExpectation(now.tail()), caseFile.facts(), joined);
      if (readsAs(whole, caseFile)) {
        return whole;
      } else if (readsAs(without, open)) {
        return without;
      }
    }
    parts = Optional.empty();
    String anew = writer.write(caseFile);
    String read = readsAs(anew, caseFile) ? anew : writer.write(open);
    return takenApart(caseFile, read)
        .map(p -> put(p, p.tail(), caseFile.facts(), joined))
        .orElse(read);
  }

  /** What stands below the facts, up to what is expected. */
  private static List<String> withoutExpectation(List<String> tail) {
    List<String> kept = new ArrayList<>();
    boolean expecting = false;
    for (String line : tail) {
      boolean begins = !line.isEmpty() && !Character.isWhitespace(line.charAt(0));
      expecting = begins && !line.startsWith("#") ? line.startsWith("expect:") : expecting;
      if (!expecting) {
        kept.add(line);
      }
    }
    return kept;
  }

  private String put(Parts parts, List<String> tail, List<Told> facts, Set<FactId> joined) {
    List<String> lines = new ArrayList<>(parts.head());
    if (!facts.isEmpty()) {
      lines.add(FACTS + ":");
    }
    for (Told told : facts) {
      List<String> written =
          parts.facts().getOrDefault(told.id(), List.of(parts.item() + writer.fact(told)));
      String first = written.get(0);
      String bare =
          first.endsWith(SAME_ANSWER)
              ? first.substring(0, first.length() - SAME_ANSWER.length())
              : first;
      lines.add(joined.contains(told.id()) ? bare + SAME_ANSWER : bare);
      lines.addAll(written.subList(1, written.size()));
    }
    lines.addAll(tail);
    return String.join("\n", lines) + "\n";
  }

  private boolean readsAs(String text, CaseFile wanted) {
    CaseReading reading = reader.read(YamlText.of("the case", text));
    return reading instanceof CaseReading.Readable r
        && isSameButForFacts(r.caseFile(), wanted)
        && facts(r.caseFile()).equals(facts(wanted));
  }

  /** A reader numbers them afresh. */
  private static List<Fact> facts(CaseFile c) {
    return c.facts().stream().map(Told::fact).toList();
  }

  private static boolean isSameButForFacts(CaseFile one, CaseFile other) {
    return one.name().equals(other.name())
        && one.pack().equals(other.pack())
        && one.packVersion().equals(other.packVersion())
        && one.intake().equals(other.intake())
        && one.expectation().equals(other.expectation());
  }

  /** Empty where facts do not begin on lines of their own. */
  private static Optional<Parts> takenApart(CaseFile caseFile, String text) {
    List<String> lines = text.lines().toList();
    Optional<YamlNode.YamlMap> root = YamlText.of("the case", text).root();
    if (root.isEmpty()) {
      return Optional.empty();
    }
    Optional<YamlNode.Entry> entry = root.get().entry(FACTS);
    if (entry.isEmpty()) {
      return Optional.of(new Parts(caseFile, lines, Map.of(), List.of(), "  - "));
    }
    int key = entry.get().key().at().line();
    if (!(entry.get().value() instanceof YamlList list)
        || !lines.get(key - 1).strip().equals(FACTS + ":")
        || list.items().size() != caseFile.facts().size()) {
      return Optional.empty();
    }
    int end =
        root.get().entries().stream()
            .mapToInt(e -> e.key().at().line())
            .filter(line -> line > key)
            .min()
            .orElse(lines.size() + 1);
    List<Integer> starts = list.items().stream().map(item -> item.at().line()).toList();
    return factLines(caseFile, lines, starts, end)
        .map(
            facts ->
                new Parts(
                    caseFile,
                    lines.subList(0, key - 1),
                    facts,
                    lines.subList(end - 1, lines.size()),
                    lead(lines.get(starts.get(0) - 1))));
  }

  private static Optional<Map<FactId, List<String>>> factLines(
      CaseFile caseFile, List<String> lines, List<Integer> starts, int end) {
    Map<FactId, List<String>> facts = new LinkedHashMap<>();
    for (int i = 0; i < starts.size(); i++) {
      int from = starts.get(i);
      int to = i + 1 < starts.size() ? starts.get(i + 1) : end;
      if (from >= to || !lines.get(from - 1).stripLeading().startsWith("- ")) {
        return Optional.empty();
      }
      facts.put(caseFile.facts().get(i).id(), lines.subList(from - 1, to - 1));
    }
    return Optional.of(facts);
  }

  private static String lead(String line) {
    return line.substring(0, line.indexOf('-')) + "- ";
  }
}
