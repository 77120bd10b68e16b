package org.faultwright.casefile;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.faultwright.pack.Goal;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PackDraft;
import org.faultwright.pack.PackId;
import org.faultwright.pack.Step;
import org.faultwright.pack.format.Block;
import org.faultwright.pack.format.Fields;
import org.faultwright.pack.format.Findings;
import org.faultwright.pack.format.Key;
import org.faultwright.pack.format.Names;
import org.faultwright.pack.format.SchemaWriter;
import org.faultwright.pack.format.Scope;
import org.faultwright.pack.reader.PackLibrary;
import org.faultwright.pack.reader.PackReading;
import org.faultwright.pack.yaml.YamlNode;
import org.faultwright.pack.yaml.YamlNode.YamlMap;
import org.faultwright.pack.yaml.YamlNode.YamlScalar;
import org.faultwright.pack.yaml.YamlText;
import org.faultwright.problem.Nearest;
import org.faultwright.problem.Problem;
import org.faultwright.problem.ProblemReport;
import org.faultwright.problem.Span;

/**
 * Reads cases of format 1, each with the pack that it names. Whatever is wrong with a file is a
 * problem in the result, never an exception. Immutable, and safe for use by several threads.
 */
public final class CaseReader {

  private final Pack pack;
  private final Key<List<Optional<FactForms.Labelled>>> facts;
  private final Block block;

  /** A reader of cases for one pack. */
  public CaseReader(Pack pack) {
    this.pack = pack;
    this.facts =
        Key.optional(FactForms.FACTS, new FactForms(pack).list(), "what is known, in order");
    this.block =
        Block.of(
            "case",
            CaseKeys.CASE,
            CaseKeys.FORMAT,
            CaseKeys.TITLE,
            CaseKeys.PACK,
            CaseKeys.BOARD,
            CaseKeys.GOAL,
            CaseKeys.CONSENT,
            CaseKeys.REFUSED,
            CaseKeys.CEILING,
            CaseKeys.DEVICE_VALUE,
            CaseKeys.DATA_VALUE,
            CaseKeys.IRREPLACEABLE,
            CaseKeys.LACKS,
            CaseKeys.SKILL,
            facts,
            CaseKeys.EXPECT);
  }

  /** The JSON Schema of a case of format 1, written from the keys that the reader reads. */
  public static String schema() {
    Pack anyPack = new PackDraft(new PackId("any", "pack")).build();
    return SchemaWriter.write("A case, format 1", new CaseReader(anyPack).block.shape());
  }

  /**
   * The pack that a case names, so that it can be found before the case is read; empty where it
   * names none that could be found: reading the case with any pack then says why.
   */
  public static Optional<PackId> packNamedIn(YamlText text) {
    Scope silent = Scope.of("the case", new Names(), p -> {});
    return text.root()
        .flatMap(r -> r.value(CaseKeys.PACK.name()))
        .filter(YamlScalar.class::isInstance)
        .flatMap(n -> CaseKeys.packName((YamlScalar) n, silent))
        .map(CaseKeys.PackName::id);
  }

  /** Where a case names its pack, or the start of its text. */
  public static Span packNameIn(YamlText text) {
    return text.root()
        .flatMap(r -> r.entry(CaseKeys.PACK.name()))
        .map(YamlNode.Entry::at)
        .orElse(new Span(text.file(), 1, 1, 1));
  }

  /**
   * Reads a case with the pack that it names. Where that pack cannot be used, its problems are
   * those of the case.
   */
  public static CaseReading read(YamlText text, PackLibrary library) {
    Optional<PackId> named = packNamedIn(text);
    if (named.isEmpty()) {
      return withoutPack(text);
    }
    Optional<PackReading> pack = library.read(named.get());
    if (pack.isEmpty()) {
      return unreadable(text, List.of(library.unknown(named.get(), packNameIn(text))));
    }
    if (pack.get() instanceof PackReading.Unreadable broken) {
      return new CaseReading.Unreadable(broken.problems(), broken.texts().with(text.source()));
    }
    return new CaseReader(((PackReading.Readable) pack.get()).pack()).read(text);
  }

  /** A case whose pack is not known: only what it says of its pack is looked at. */
  private static CaseReading withoutPack(YamlText text) {
    Findings findings = new Findings();
    Scope scope = Scope.of("the case", new Names(), findings);
    text.root().ifPresent(root -> Block.of("case", CaseKeys.PACK).read(onlyPack(root), scope));
    return unreadable(text, findings.sorted());
  }

  private static YamlMap onlyPack(YamlMap root) {
    return new YamlMap(
        root.at(),
        root.entries().stream()
            .filter(
                e ->
                    e.name().equals(CaseKeys.PACK.name())
                        || Nearest.of(e.name(), List.of(CaseKeys.PACK.name())).isPresent())
            .toList());
  }

  private static CaseReading unreadable(YamlText text, List<Problem> more) {
    List<Problem> all = new ArrayList<>(text.problems());
    all.addAll(more);
    return new CaseReading.Unreadable(ProblemReport.sorted(all), text.source());
  }

  /** Reads a case. */
  public CaseReading read(YamlText text) {
    Findings findings = new Findings();
    Optional<CaseFile> caseFile = Optional.empty();
    try {
      text.problems().forEach(findings);
      caseFile = text.root().flatMap(root -> read(root, findings));
    } catch (Findings.Enough enough) {
      caseFile = Optional.empty();
    }
    return caseFile.isEmpty() || findings.haveErrors()
        ? new CaseReading.Unreadable(findings.sorted(), text.source())
        : new CaseReading.Readable(caseFile.get(), pack, findings.sorted(), text.source());
  }

  private Optional<CaseFile> read(YamlMap root, Findings findings) {
    Scope scope = Scope.of("the case", Names.of(pack), findings);
    Optional<CaseKeys.PackName> named =
        root.value(CaseKeys.PACK.name())
            .flatMap(n -> CaseKeys.PACK.form().read(n, scope.reportingTo(p -> {})));
    if (named.isPresent()) {
      Span at = root.entry(CaseKeys.PACK.name()).orElseThrow().at();
      if (!CasePack.matches(named.get(), at, pack, findings)) {
        return Optional.empty(); // Each id in it would be another problem.
      }
    }
    return block.read(root, scope).flatMap(this::assemble);
  }

  private Optional<CaseFile> assemble(Fields f) {
    List<Told> told = new ArrayList<>();
    Map<String, Span> labels = new LinkedHashMap<>();
    for (Optional<FactForms.Labelled> one : f.get(facts).orElse(List.of())) {
      one.ifPresent(
          l -> {
            Optional<String> label = Labels.of(l, labels, f.scope());
            l.facts().forEach(x -> told.add(new Told(new FactId(told.size() + 1), label, x)));
          });
    }
    Optional<Fields> expect = f.get(CaseKeys.EXPECT);
    if (!f.complete() || f.spoilt(facts)) {
      return Optional.empty();
    }
    Optional<Expectation> expectation = expect.map(e -> expectation(e, f));
    CaseKeys.PackName named = f.need(CaseKeys.PACK);
    return Optional.of(
        new CaseFile(
            f.need(CaseKeys.CASE),
            f.get(CaseKeys.TITLE),
            named.id(),
            named.version(),
            intake(f),
            told,
            expectation));
  }

  private static Intake intake(Fields f) {
    return new Intake(
        f.get(CaseKeys.BOARD),
        f.get(CaseKeys.GOAL).orElse(Goal.WORKING),
        f.get(CaseKeys.CONSENT).orElse(Set.of()),
        f.get(CaseKeys.REFUSED).orElse(Set.of()),
        f.get(CaseKeys.CEILING).map(OptionalDouble::of).orElse(OptionalDouble.empty()),
        f.get(CaseKeys.DEVICE_VALUE).map(OptionalDouble::of).orElse(OptionalDouble.empty()),
        f.get(CaseKeys.DATA_VALUE).map(OptionalDouble::of).orElse(OptionalDouble.empty()),
        f.get(CaseKeys.IRREPLACEABLE).orElse(false),
        f.get(CaseKeys.LACKS).orElse(Set.of()),
        f.get(CaseKeys.SKILL).orElse(Step.Skill.BOARD));
  }

  private Expectation expectation(Fields e, Fields f) {
    e.get(CaseKeys.DECISIVE).ifPresent(d -> Labels.check(d, f, block.keyNames()));
    return new Expectation(
        e.get(CaseKeys.LEADS),
        e.get(CaseKeys.AT_LEAST).orElse(Map.of()),
        e.get(CaseKeys.AT_MOST).orElse(Map.of()),
        e.get(CaseKeys.ADVICE),
        e.get(CaseKeys.IMPOSSIBLE).orElse(false),
        e.get(CaseKeys.DECISIVE).map(YamlScalar::text),
        e.get(CaseKeys.BLOCKED).orElse(Set.of()).stream().map(Object::toString).toList(),
        e.get(CaseKeys.HOLDS).orElse(Set.of()).stream().map(Object::toString).toList());
  }
}
