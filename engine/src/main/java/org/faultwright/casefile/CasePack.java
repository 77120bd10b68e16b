package org.faultwright.casefile;

import java.util.Optional;
import java.util.function.Consumer;
import org.faultwright.pack.Pack;
import org.faultwright.problem.Problem;
import org.faultwright.problem.Span;

/** Whether a case is read with the pack that it names. */
final class CasePack {

  private CasePack() {}

  /**
   * Whether the case can be read with the pack; what stands in the way, or only speaks against it,
   * has been reported.
   *
   * @param named the pack that the case names
   * @param at where it names it
   */
  static boolean matches(CaseKeys.PackName named, Span at, Pack pack, Consumer<Problem> findings) {
    if (!named.id().equals(pack.id())) {
      findings.accept(
          Problem.error(
              CaseRule.OTHER_PACK.id(),
              at,
              "the case is for pack '" + named.id() + "', and it is read with '" + pack.id() + "'",
              "read it with the pack that it names"));
      return false;
    }
    Optional<String> version = named.version();
    if (version.isPresent() && !version.get().equals(pack.version())) {
      String message =
          "the case was written for version "
              + version.get()
              + " of '"
              + pack.id()
              + "', and this is version "
              + pack.version();
      String way = "look through it, then write '" + pack.id() + "@" + pack.version() + "'";
      boolean near = major(version.get()).equals(major(pack.version()));
      findings.accept(
          near
              ? Problem.warning(CaseRule.OTHER_PACK_VERSION.id(), at, message, way)
              : Problem.error(CaseRule.OTHER_PACK_VERSION.id(), at, message, way));
      return near;
    }
    return true;
  }

  /** The first number of a version; of several packs, of each. */
  private static String major(String version) {
    return version.replaceAll("\\.[0-9]+\\.[0-9]+", "");
  }
}
