package org.faultwright.pack.reader;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.pack.Basis;
import org.faultwright.pack.Cause;
import org.faultwright.pack.Cause.Likelihood;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Chance;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.PackDraft;
import org.faultwright.pack.format.Chances;
import org.faultwright.pack.format.FormatRule;
import org.faultwright.pack.format.Kind;
import org.faultwright.pack.format.Names;
import org.faultwright.pack.format.Scope;
import org.faultwright.pack.format.Stated;
import org.faultwright.pack.yaml.YamlNode;
import org.faultwright.pack.yaml.YamlNode.YamlMap;
import org.faultwright.problem.Span;

/**
 * The shares of complaints: those that are counted get their values once it is known how many
 * causes a complaint has, and all of a complaint must sum to 1.
 */
final class Shares {

  /** How far counted shares may be from a sum of 1: they are quotients, and rounded. */
  private static final BigDecimal ROUNDING = new BigDecimal("1e-9");

  private final PackDraft draft;
  private final Scope scope;
  private final Set<CauseId> computed = new HashSet<>();

  Shares(PackDraft draft, Scope scope) {
    this.draft = draft;
    this.scope = scope;
  }

  /** Settles counted shares and reports complaints whose shares do not sum to 1. */
  void settle() {
    Map<ComplaintId, List<CauseId>> causes = new LinkedHashMap<>();
    for (Cause c : draft.causes.values()) {
      if (c.likelihood() instanceof Likelihood.Share s) {
        causes.computeIfAbsent(s.of(), k -> new ArrayList<>()).add(c.id());
      }
    }
    boolean allRead = causes.values().stream().mapToInt(List::size).sum() == written();
    causes.forEach(
        (complaint, ids) -> {
          Map<CauseId, BigDecimal> shares = new LinkedHashMap<>();
          ids.forEach(id -> shares.put(id, share(id, ids.size())));
          // What could not be read has been reported, and its share would be missing in the sum.
          if (allRead) {
            check(complaint, shares);
          }
        });
  }

  /** How many causes say, soundly or not, that they are a share of something. */
  private long written() {
    Names names = scope.names();
    return names.all(Kind.CAUSE).stream()
        .flatMap(id -> names.definition(Kind.CAUSE, id).stream())
        .filter(d -> d.entry().isPresent())
        .filter(d -> d.block().map(Shares::isShare).orElse(true))
        .count();
  }

  private static boolean isShare(YamlMap cause) {
    boolean countedAlone =
        cause.value("prior").isEmpty()
            && cause
                .map("counted")
                .filter(c -> !c.text("among").orElse("").equals("devices"))
                .isPresent();
    return cause.value("share").isPresent() || countedAlone;
  }

  private BigDecimal share(CauseId id, int count) {
    Cause c = draft.causes.get(id);
    Likelihood.Share stated = (Likelihood.Share) c.likelihood();
    Optional<YamlMap> block =
        scope.names().definition(Kind.CAUSE, id.value()).flatMap(Names.Defined::block);
    Optional<BigDecimal> written = block.flatMap(b -> b.value("share")).flatMap(this::decimal);
    if (written.isPresent() || !(stated.share().basis() instanceof Basis.Counted counted)) {
      return written.orElse(BigDecimal.valueOf(stated.share().p()));
    }
    computed.add(id);
    BigDecimal share =
        BigDecimal.valueOf(2L * counted.seen() + 1)
            .divide(BigDecimal.valueOf(2L * counted.of() + count), MathContext.DECIMAL64);
    draft.causes.put(
        id,
        c.withLikelihood(
            new Likelihood.Share(stated.of(), Chance.of(share.doubleValue(), counted))));
    return share;
  }

  private Optional<BigDecimal> decimal(YamlNode share) {
    return Chances.stated(0, 1).read(share, scope.reportingTo(p -> {})).map(Stated::decimal);
  }

  private void check(ComplaintId complaint, Map<CauseId, BigDecimal> shares) {
    BigDecimal sum = shares.values().stream().reduce(BigDecimal.ZERO, BigDecimal::add);
    boolean counted = shares.keySet().stream().anyMatch(computed::contains);
    BigDecimal off = sum.subtract(BigDecimal.ONE).abs();
    if (counted ? off.compareTo(ROUNDING) <= 0 : off.signum() == 0) {
      return;
    }
    String percent =
        sum.movePointRight(2).round(new MathContext(10)).stripTrailingZeros().toPlainString();
    scope.error(
        FormatRule.SHARES_SUM,
        complaintAt(complaint),
        "the shares of complaint '" + complaint + "' must sum to 100 %: " + percent + " %",
        "they are: " + String.join(", ", shares.keySet().stream().map(CauseId::value).toList()));
  }

  private Span complaintAt(ComplaintId complaint) {
    return scope
        .names()
        .definition(Kind.COMPLAINT, complaint.value())
        .flatMap(Names.Defined::at)
        .orElseThrow();
  }
}
