package org.faultwright.interchange;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.faulttree.EventName;
import org.faultwright.problem.Nearest;

/**
 * What a model in the Open-PSA format declares, by full name: a public name by itself, a private
 * one after the names of its containers.
 */
final class Declarations {

  enum Kind {
    GATE("define-gate"),
    BASIC_EVENT("define-basic-event"),
    HOUSE_EVENT("define-house-event"),
    PARAMETER("define-parameter");

    private final String element;

    Kind(String element) {
      this.element = element;
    }

    static Optional<Kind> of(String element) {
      for (Kind kind : values()) {
        if (kind.element.equals(element)) {
          return Optional.of(kind);
        }
      }
      return Optional.empty();
    }

    String words() {
      return element.substring("define-".length());
    }
  }

  /**
   * One declaration.
   *
   * @param container names of the containers around it, outermost first
   */
  record Declared(Kind kind, List<String> container, XmlElement element) {}

  private static final Set<String> ROLES = Set.of("public", "private");
  private static final Set<String> SILENT = Set.of("label", "attributes");

  private static final List<String> ELEMENTS =
      List.of(
          "define-fault-tree",
          "define-component",
          "define-gate",
          "define-basic-event",
          "define-house-event",
          "define-parameter",
          "model-data",
          "label",
          "attributes");

  private final Places places;
  private final Map<String, Declared> events = new LinkedHashMap<>();
  private final Map<String, Declared> parameters = new LinkedHashMap<>();

  Declarations(Places places) {
    this.places = places;
  }

  /** Events by full name, in order. */
  Map<String, Declared> events() {
    return events;
  }

  /** Parameters by full name. */
  Map<String, Declared> parameters() {
    return parameters;
  }

  /** Takes in a container: a fault tree, a component, or the data of the model. */
  void addAll(XmlElement around, List<String> container, boolean isPrivate) {
    for (XmlElement child : around.children()) {
      Optional<Kind> kind = Kind.of(child.name());
      if (kind.isPresent()) {
        name(child).ifPresent(name -> add(kind.get(), child, container, name, isPrivate));
      } else if (child.name().equals("define-component") && !container.isEmpty()) {
        name(child)
            .ifPresent(
                name -> {
                  List<String> inner = new ArrayList<>(container);
                  inner.add(name);
                  addAll(child, inner, isPrivate(child, isPrivate));
                });
      } else if (!SILENT.contains(child.name())) {
        refuse(child);
      }
    }
  }

  /** An element that has no business here, or that is not read. */
  void refuse(XmlElement element) {
    boolean known =
        element.name().startsWith("define-")
            || element.name().equals("include")
            || element.name().equals("import");
    if (known) {
      places.error(
          ExchangeRule.NOT_TAKEN,
          element.at(),
          "'" + element.name() + "' is not read: only fault trees with their events and parameters",
          "take it out, or write what it stands for with gates and basic events");
    } else {
      places.error(
          ExchangeRule.NOT_OF_THE_FORMAT,
          element.at(),
          "element '" + element.name() + "' is not expected here",
          Nearest.of(element.name(), ELEMENTS)
              .map(n -> "did you mean '" + n + "'?")
              .orElse("read are: " + String.join(", ", ELEMENTS)));
    }
  }

  Optional<String> name(XmlElement element) {
    Optional<String> name = element.attribute("name");
    if (name.isEmpty()) {
      places.error(
          ExchangeRule.NOT_OF_THE_FORMAT,
          element.at(),
          "'" + element.name() + "' has no name",
          "give it one, as in <" + element.name() + " name=\"pump-blocked\">");
      return name;
    }
    if (!EventName.isPart(name.get())) {
      places.error(
          ExchangeRule.BAD_NAME,
          element.place("name"),
          "'" + name.get() + "' is no name",
          "a name is a letter or underscore, then letters, digits, underscores and single hyphens");
      return Optional.empty();
    }
    return name;
  }

  private boolean isPrivate(XmlElement element, boolean inherited) {
    Optional<String> role = element.attribute("role");
    if (role.isPresent() && !ROLES.contains(role.get())) {
      places.error(
          ExchangeRule.NOT_OF_THE_FORMAT,
          element.place("role"),
          "role must be public or private: " + role.get(),
          "write role=\"private\" for names that only their container knows");
    }
    return role.map("private"::equals).orElse(inherited);
  }

  private void add(
      Kind kind, XmlElement element, List<String> container, String name, boolean inherited) {
    boolean isPrivate = isPrivate(element, inherited) && !container.isEmpty();
    String full = isPrivate ? String.join(".", container) + "." + name : name;
    if (!EventName.isWellSpelt(full)) {
      places.error(
          ExchangeRule.BAD_NAME,
          element.place("name"),
          "with its containers the name has more than " + EventName.MAX_LENGTH + " characters",
          "use shorter names, or fewer components within one another");
      return;
    }
    Map<String, Declared> into = kind == Kind.PARAMETER ? parameters : events;
    Declared declared = new Declared(kind, container, element);
    Declared before = into.putIfAbsent(full, declared);
    if (before == null) {
      return;
    }
    // a basic event may be named in a fault tree and get its probability in the model's data
    boolean basic = kind == Kind.BASIC_EVENT && before.kind == Kind.BASIC_EVENT;
    if (basic && value(before.element).isEmpty()) {
      into.put(full, declared);
    } else if (!basic || !value(element).isEmpty()) {
      places.error(
          ExchangeRule.DEFINED_TWICE,
          element.place("name"),
          "'" + full + "' is defined twice; first in line " + before.element.at().line(),
          "take one of them out, or give it another name");
    }
  }

  /** What a definition says beside its label. */
  static List<XmlElement> value(XmlElement element) {
    return element.children().stream().filter(c -> !SILENT.contains(c.name())).toList();
  }

  /**
   * What a name stands for within a container: the innermost private one, or else the public one.
   */
  static Optional<String> find(
      Map<String, Declared> among, String reference, List<String> container) {
    for (int depth = container.size(); depth > 0; depth--) {
      String full = String.join(".", container.subList(0, depth)) + "." + reference;
      if (among.containsKey(full)) {
        return Optional.of(full);
      }
    }
    return among.containsKey(reference) ? Optional.of(reference) : Optional.empty();
  }
}
