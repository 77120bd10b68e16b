package org.faultwright.pack.reader;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PackId;
import org.faultwright.pack.check.Positions;
import org.faultwright.pack.merge.Difference;
import org.faultwright.pack.merge.MergedPacks;
import org.faultwright.pack.merge.PackMerge;
import org.faultwright.problem.Problem;
import org.faultwright.problem.ProblemReport;
import org.faultwright.problem.SourceTexts;

/** Several packs, each read by itself, as one. */
final class SeveralPacks {

  private SeveralPacks() {}

  /** What comes of putting them together; unreadable as soon as one of them is. */
  static PackReading together(List<PackReading> each) {
    List<Problem> problems = new ArrayList<>();
    SourceTexts texts = SourceTexts.NONE;
    List<Pack> packs = new ArrayList<>();
    Map<PackId, Positions> at = new LinkedHashMap<>();
    for (PackReading reading : each) {
      problems.addAll(reading.problems());
      texts = texts.with(reading.texts());
      if (reading instanceof PackReading.Readable r) {
        packs.add(r.pack());
        at.put(r.pack().id(), r.at());
      }
    }
    if (packs.size() < each.size()) {
      return new PackReading.Unreadable(ProblemReport.sorted(problems), texts);
    }
    MergedPacks merged = PackMerge.of(packs);
    merged.differences().forEach(d -> problems.add(problem(d, at.get(d.second()))));
    List<Problem> sorted = ProblemReport.sorted(problems);
    if (merged instanceof MergedPacks.Whole whole) {
      Positions all = at.values().stream().reduce(Positions::and).orElseThrow();
      return new PackReading.Readable(whole.pack(), all, sorted, texts);
    }
    return new PackReading.Unreadable(sorted, texts);
  }

  private static Problem problem(Difference d, Positions at) {
    return d.kind() == Difference.Kind.CLASH
        ? Problem.error(PackLibrary.PACKS_CLASH, at.of(d.path()), d.message(), d.wayOut())
        : Problem.warning(PackLibrary.PACKS_DIFFER, at.of(d.path()), d.message(), d.wayOut());
  }
}
