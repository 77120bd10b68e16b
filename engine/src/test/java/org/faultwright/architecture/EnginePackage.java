package org.faultwright.architecture;

import static java.util.stream.Collectors.joining;

import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;

/**
 * The packages of the engine, bottom up, each with the packages it builds on. What those build on
 * may be used as well: whoever reads a pack meets its positions and its units.
 */
enum EnginePackage {
  PROBLEM("every layer reports what it finds in a file, so the report knows none of them"),
  MEASUREMENT("a reading is judged by physics, whatever pack or case it belongs to", PROBLEM),
  INFERENCE("the mathematics is tested and moved on its own, so it knows neither trade nor files"),
  PACK("a pack is what an author stated, before any case or any computing", PROBLEM, MEASUREMENT),
  CASEFILE("a case refers to its pack, never the other way round", PACK, MEASUREMENT),
  COMPILE(
      "this is the one translator between the trade and the mathematics",
      PACK,
      CASEFILE,
      MEASUREMENT,
      INFERENCE),
  FAULTTREE("cut sets and importance are read off the compiled network", COMPILE, INFERENCE),
  RULES("rules decide what stands and what is allowed; arithmetic is not theirs", PACK, CASEFILE),
  PLANNING(
      "permission is the rules' business: planning evaluates guards and never asks the rules",
      COMPILE,
      CASEFILE),
  EXPLANATION("it explains what was computed and decided below it", COMPILE, PLANNING, RULES),
  CASEBOOK("what a shop learns comes from cases and compiled packs alone", CASEFILE, COMPILE),
  DIAGNOSIS(
      "it is the door of the house: it may call everything, nothing may call it",
      PROBLEM,
      MEASUREMENT,
      INFERENCE,
      PACK,
      CASEFILE,
      COMPILE,
      FAULTTREE,
      RULES,
      PLANNING,
      EXPLANATION,
      CASEBOOK),
  INTERCHANGE(
      "open formats stand beside the diagnosis: neither needs the other",
      PROBLEM,
      MEASUREMENT,
      INFERENCE,
      PACK,
      CASEFILE,
      COMPILE,
      FAULTTREE,
      CASEBOOK);

  private static final String ROOT = "org.faultwright.";

  private final String reason;
  private final List<EnginePackage> buildsOn;

  EnginePackage(String reason, EnginePackage... buildsOn) {
    this.reason = reason;
    this.buildsOn = List.of(buildsOn);
  }

  String reason() {
    return reason;
  }

  String packageName() {
    return ROOT + name().toLowerCase(java.util.Locale.ROOT);
  }

  boolean holds(String someClassOrPackage) {
    return (someClassOrPackage + ".").startsWith(packageName() + ".");
  }

  static Optional<EnginePackage> of(String someClassOrPackage) {
    return Arrays.stream(values()).filter(p -> p.holds(someClassOrPackage)).findFirst();
  }

  /** This package and all that it may use. */
  Set<EnginePackage> reach() {
    Set<EnginePackage> reach = new LinkedHashSet<>();
    reach.add(this);
    buildsOn.forEach(below -> reach.addAll(below.reach()));
    return reach;
  }

  /** The packages of the engine that this one must not use. */
  String[] outOfReach() {
    Set<EnginePackage> reach = reach();
    return Stream.of(values())
        .filter(p -> !reach.contains(p))
        .map(p -> p.packageName() + "..")
        .toArray(String[]::new);
  }

  String reachInWords() {
    return reach().stream().map(EnginePackage::packageName).collect(joining(", "));
  }
}
