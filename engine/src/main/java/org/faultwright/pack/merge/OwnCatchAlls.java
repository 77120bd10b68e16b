package org.faultwright.pack.merge;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Id;
import org.faultwright.pack.Pack;

/**
 * What a pack does not list, and a device in which it finds no fault, are its own affair: where
 * several packs have a cause called so, each gets a name of its own.
 */
final class OwnCatchAlls {

  private static final List<CauseId> CATCH_ALLS =
      List.of(
          new CauseId("unlisted"),
          new CauseId("no-fault-found"),
          new CauseId("outside-the-device"));

  private OwnCatchAlls() {}

  /** The packs with such causes renamed where more than one has them. */
  static List<Pack> of(List<Pack> packs) {
    Set<CauseId> several = new LinkedHashSet<>(CATCH_ALLS);
    several.removeIf(c -> packs.stream().filter(p -> p.causes().containsKey(c)).count() < 2);
    List<Pack> own = new ArrayList<>();
    for (Pack pack : packs) {
      Map<CauseId, CauseId> names = new LinkedHashMap<>();
      several.stream()
          .filter(pack.causes()::containsKey)
          .forEach(c -> names.put(c, ownName(c, pack, packs.indexOf(pack))));
      own.add(names.isEmpty() ? pack : new RenamedCauses(names).in(pack));
    }
    return own;
  }

  /** As in {@code unlisted-in-charging}; where that is too long, by number. */
  private static CauseId ownName(CauseId cause, Pack pack, int index) {
    String name = cause + "-in-" + pack.id().subsystem();
    return new CauseId(Id.isWellSpelt(name) ? name : cause + "-in-" + (index + 1));
  }
}
