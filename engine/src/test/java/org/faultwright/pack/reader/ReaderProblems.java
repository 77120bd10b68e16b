package org.faultwright.pack.reader;

import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.faultwright.casefile.CaseRule;
import org.faultwright.pack.format.Findings;
import org.faultwright.pack.format.FormatRule;
import org.faultwright.pack.format.Kind;
import org.faultwright.pack.yaml.YamlRule;

/** The ids of all problems that reading a pack or a case can find. */
public final class ReaderProblems {

  /** Nothing can refer to these: a group is only defined, a switch is named by its positions. */
  private static final Set<Kind> NEVER_REFERRED_TO = Set.of(Kind.GROUP, Kind.SWITCH);

  /** What no small file can show; each has a test of its own. */
  public static final Set<String> WITHOUT_FIXTURE =
      Set.of(
          "unreadable-file",
          "file-too-large",
          "too-many-nodes",
          "too-many-problems",
          "unknown-pack",
          "misplaced-pack",
          "packs-clash",
          "packs-differ");

  private ReaderProblems() {}

  /** All of them. */
  public static List<String> ids() {
    return Stream.of(
            Arrays.stream(YamlRule.values()).map(YamlRule::id),
            Arrays.stream(FormatRule.values()).map(FormatRule::id),
            Arrays.stream(Kind.values())
                .filter(k -> !NEVER_REFERRED_TO.contains(k))
                .map(Kind::unknown),
            Arrays.stream(CaseRule.values()).map(CaseRule::id),
            Stream.of(
                Findings.TOO_MANY,
                PackLibrary.UNKNOWN_PACK,
                PackLibrary.MISPLACED_PACK,
                PackLibrary.PACKS_CLASH,
                PackLibrary.PACKS_DIFFER))
        .flatMap(s -> s)
        .toList();
  }

  /** Those that have a broken file and a near miss. */
  public static List<String> withFixtures() {
    return ids().stream().filter(id -> !WITHOUT_FIXTURE.contains(id)).toList();
  }

  /** Those that are seen without knowing what ids mean. */
  public static Set<String> structural() {
    return Set.copyOf(
        Arrays.stream(FormatRule.values())
            .filter(FormatRule::structural)
            .map(FormatRule::id)
            .toList());
  }
}
