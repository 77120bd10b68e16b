package org.faultwright.interchange;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.faultwright.faulttree.EventProbability;
import org.faultwright.interchange.Declarations.Declared;

/** Values of basic events and parameters: numbers, parameters, the exponential law. */
final class Expressions {

  private final Declarations declarations;
  private final Places places;
  private final OptionalDouble missionTime;

  /** Parameters whose values are being found. */
  private final Set<String> open = new LinkedHashSet<>();

  Expressions(Declarations declarations, Places places, OptionalDouble missionTime) {
    this.declarations = declarations;
    this.places = places;
    this.missionTime = missionTime;
  }

  Optional<EventProbability> probability(Declared event) {
    List<XmlElement> value = Declarations.value(event.element());
    if (value.isEmpty()) {
      places.error(
          ExchangeRule.NOT_OF_THE_FORMAT,
          event.element().place("name"),
          "basic-event '" + event.element().attributes().get("name") + "' has no probability",
          "write one, as in <float value=\"0.01\"/>, here or in <model-data>");
      return Optional.empty();
    }
    XmlElement of = value.get(0);
    if (of.name().equals("exponential")) {
      return exponential(of, event.container());
    }
    return number(of, event.container())
        .flatMap(
            p -> {
              if (p >= 0 && p <= 1) {
                return Optional.of(new EventProbability.Fixed(p));
              }
              places.error(
                  ExchangeRule.BAD_NUMBER,
                  of.place("value"),
                  "a probability must be in [0, 1]: " + p,
                  "a rate needs <exponential> around it and a mission time");
              return Optional.empty();
            });
  }

  private Optional<EventProbability> exponential(XmlElement law, List<String> container) {
    if (law.children().size() != 2) {
      places.error(
          ExchangeRule.NOT_OF_THE_FORMAT,
          law.at(),
          "'exponential' must have a rate and a time",
          "write <exponential><float value=\"1e-5\"/><float value=\"1000\"/></exponential>");
      return Optional.empty();
    }
    Optional<Double> rate = number(law.children().get(0), container);
    Optional<Double> time = number(law.children().get(1), container);
    if (rate.isEmpty() || time.isEmpty()) {
      return Optional.empty();
    }
    if (!(rate.get() >= 0 && time.get() >= 0)) {
      places.error(
          ExchangeRule.BAD_NUMBER,
          law.at(),
          "rate and time must not be negative: " + rate.get() + ", " + time.get(),
          "check their signs");
      return Optional.empty();
    }
    return Optional.of(new EventProbability.Exponential(rate.get(), time.get()));
  }

  private Optional<Double> number(XmlElement element, List<String> container) {
    return switch (element.name()) {
      case "float", "int" -> literal(element);
      case "bool" ->
          element.attribute("value").filter("true"::equals).isPresent()
              ? Optional.of(1.0)
              : Optional.of(0.0);
      case "parameter" -> parameter(element, container);
      case "system-mission-time" -> time(element);
      default -> {
        places.error(
            ExchangeRule.NOT_TAKEN,
            element.at(),
            "expression '" + element.name() + "' is not read",
            "write its value as <float value=\"...\"/>; read are float, int, bool, parameter,"
                + " system-mission-time and exponential");
        yield Optional.empty();
      }
    };
  }

  private Optional<Double> literal(XmlElement element) {
    String text = element.attribute("value").orElse("");
    try {
      double value = Double.parseDouble(text);
      if (Double.isFinite(value) && text.matches("[-+0-9.eE]+")) {
        return Optional.of(value);
      }
    } catch (NumberFormatException e) {
      // told below, with all else that is no number
    }
    places.error(
        ExchangeRule.BAD_NUMBER,
        element.place("value"),
        "value of '" + element.name() + "' must be a number" + (text.isEmpty() ? "" : ": " + text),
        "write it with a decimal point, as in 0.01 or 1e-5");
    return Optional.empty();
  }

  private Optional<Double> time(XmlElement element) {
    if (missionTime.isEmpty()) {
      places.error(
          ExchangeRule.NO_MISSION_TIME,
          element.at(),
          "the model asks for the mission time, and it is not given",
          "give it with --mission-time, in the unit of the rates");
      return Optional.empty();
    }
    return Optional.of(missionTime.getAsDouble());
  }

  private Optional<Double> parameter(XmlElement element, List<String> container) {
    String reference = element.attribute("name").orElse("");
    Optional<String> found = Declarations.find(declarations.parameters(), reference, container);
    if (found.isEmpty()) {
      places.error(
          ExchangeRule.NOT_DEFINED,
          element.place("name"),
          "parameter '" + reference + "' is not defined",
          "define it with <define-parameter>, or check its name and its container");
      return Optional.empty();
    }
    Declared declared = declarations.parameters().get(found.get());
    List<XmlElement> value = Declarations.value(declared.element());
    if (!open.add(found.get()) || open.size() > XmlElement.MOST_DEPTH) {
      places.error(
          ExchangeRule.CYCLE,
          declared.element().place("name"),
          "parameter '" + found.get() + "' is made of itself, or of a chain that is too long",
          "write its value as a number");
      return Optional.empty();
    }
    try {
      if (value.size() != 1) {
        places.error(
            ExchangeRule.NOT_OF_THE_FORMAT,
            declared.element().at(),
            "parameter '" + found.get() + "' must have exactly one value",
            "write one, as in <float value=\"1e-5\"/>");
        return Optional.empty();
      }
      return number(value.get(0), declared.container());
    } finally {
      open.remove(found.get());
    }
  }
}
