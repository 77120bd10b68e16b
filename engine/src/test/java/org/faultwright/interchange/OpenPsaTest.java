package org.faultwright.interchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.faultwright.faulttree.AnalysisLimits;
import org.faultwright.faulttree.EventName;
import org.faultwright.faulttree.EventProbability;
import org.faultwright.faulttree.FaultTree;
import org.faultwright.faulttree.Formula;
import org.faultwright.faulttree.TreeAnalysis;
import org.faultwright.faulttree.TreeFigures;
import org.faultwright.faulttree.TreeNode;
import org.faultwright.problem.Problem;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The fault-tree layer of the Open-PSA model exchange format, version 2.0d (connectives and scopes
 * as in its chapter on that layer).
 */
class OpenPsaTest {

  private static final String HEAD = "<?xml version=\"1.0\"?>\n<opsa-mef>\n";

  @Test
  void everyPartThatIsTaken_isRead() {
    FaultTree tree =
        read(
            """
            <?xml version="1.0" encoding="UTF-8"?>
            <!-- a comment -->
            <opsa-mef>
              <define-fault-tree name="Supply">
                <label>The supply &amp; its pumps</label>
                <attributes><attribute name="by" value="nobody"/></attributes>
                <define-gate name="top">
                  <label>No water</label>
                  <or>
                    <gate name="pumps"/>
                    <event name="Left.valve"/>
                    <and><basic-event name="mains"/><not><house-event name="spare"/></not></and>
                    <atleast min="2"><event name="a"/><event name="b"/><event name="mains"/></atleast>
                    <cardinality min="1" max="1"><event name="a"/><event name="b"/></cardinality>
                    <xor><event name="a"/><event name="b"/></xor>
                    <iff><event name="a"/><event name="b"/></iff>
                    <nand><event name="a"/><event name="b"/></nand>
                    <nor><event name="a"/><event name="b"/></nor>
                    <imply><event name="a"/><constant value="false"/></imply>
                  </or>
                </define-gate>
                <define-component name="Left" role="private">
                  <define-basic-event name="valve"><float value="0.25"/></define-basic-event>
                  <define-gate name="pumps" role="public"><and><event name="valve"/></and></define-gate>
                  <define-parameter name="rate"><float value="2e-3"/></define-parameter>
                  <define-basic-event name="b" role="public">
                    <exponential><parameter name="rate"/><system-mission-time/></exponential>
                  </define-basic-event>
                </define-component>
                <define-basic-event name="mains"/>
                <define-house-event name="spare"><constant value="true"/></define-house-event>
              </define-fault-tree>
              <model-data>
                <define-basic-event name="mains"><parameter name="p"/></define-basic-event>
                <define-basic-event name="a"><int value="1"/></define-basic-event>
                <define-parameter name="p"><float value="0.125"/></define-parameter>
              </model-data>
            </opsa-mef>
            """
                .replace("<event name=\"Left.valve\"/>", "<event name=\"Supply.Left.valve\"/>"),
            OptionalDouble.of(500));
    assertThat(tree.name()).isEqualTo("Supply");
    assertThat(tree.label()).isEqualTo("The supply & its pumps");
    assertThat(tree.roots()).containsExactly(new EventName("top"));
    assertThat(tree.nodes().get(new EventName("b")))
        .isEqualTo(new TreeNode.Basic("", new EventProbability.Exponential(2e-3, 500)));
    assertThat(tree.nodes().get(new EventName("mains")))
        .isEqualTo(new TreeNode.Basic("", new EventProbability.Fixed(0.125)));
    assertThat(tree.nodes().get(new EventName("Supply.Left.valve")))
        .isEqualTo(new TreeNode.Basic("", new EventProbability.Fixed(0.25)));
    assertThat(tree.nodes().get(new EventName("pumps")))
        .isEqualTo(
            new TreeNode.Gate(
                "", new Formula.And(List.of(new Formula.Of(new EventName("Supply.Left.valve"))))));
    TreeNode.Gate top = (TreeNode.Gate) tree.nodes().get(new EventName("top"));
    assertThat(top.label()).isEqualTo("No water");
    assertThat(top.formula().arguments().stream().map(f -> f.getClass().getSimpleName()))
        .containsExactly(
            "Of", "Of", "And", "AtLeast", "Cardinality", "Xor", "Iff", "Nand", "Nor", "Imply");
  }

  /** Names are looked for from the inside out, and are told apart by case. */
  @Test
  void privateNames_hideThoseOutside() {
    FaultTree tree =
        read(
            HEAD
                + """
                <define-fault-tree name="T">
                  <define-gate name="top"><and><gate name="in"/><event name="x"/><event name="X"/></and></define-gate>
                  <define-component name="C" role="private">
                    <define-gate name="in" role="public"><or><event name="x"/></or></define-gate>
                    <define-basic-event name="x"><float value="0.5"/></define-basic-event>
                  </define-component>
                  <define-basic-event name="x"><float value="0.1"/></define-basic-event>
                  <define-basic-event name="X"><float value="0.2"/></define-basic-event>
                </define-fault-tree></opsa-mef>
                """,
            OptionalDouble.empty());
    TreeFigures figures =
        (TreeFigures) TreeAnalysis.of(tree, new EventName("top"), AnalysisLimits.USUAL);
    assertThat(figures.pTop()).isCloseTo(0.5 * 0.1 * 0.2, within(1e-15));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {
        "<or><event name=\"y\"/><event name=\"x\"/></or>|not-defined|event 'y' is not defined|25",
        "<or><gate name=\"x\"/><event name=\"x\"/></or>|not-defined|'x' is a basic-event, and is"
            + " referred to as a gate|24",
        "<orr><event name=\"x\"/></orr>|not-of-the-format|'orr' is no connective|9",
        "<imply><event name=\"x\"/></imply>|not-of-the-format|'imply' must have exactly 2"
            + " arguments, and has 1|9",
        "<not><event name=\"x\"/><event name=\"x\"/></not>|not-of-the-format|'not' must have"
            + " exactly 1 arguments, and has 2|9",
        "<atleast min=\"3\"><event name=\"x\"/></atleast>|bad-number|min of 'atleast' must be a"
            + " whole number from 0 to 1: 3|22",
        "<atleast><event name=\"x\"/></atleast>|bad-number|from 0 to 1, and is missing|9",
        "<cardinality min=\"1\" max=\"0\"><event name=\"x\"/></cardinality>|bad-number|max of"
            + " 'cardinality' must be a whole number from 1 to 1: 0|34",
        "<event name=\"x\"/><event name=\"x\"/>|not-of-the-format|gate 'top' must have exactly one"
            + " formula|26",
        "<or><gate name=\"top\"/><event name=\"x\"/></or>|cycle|gate 'top' is made of itself:"
            + " [top]|28",
      })
  void wrongFormula_isToldAtItsPlace(String formula, String id, String message, int column) {
    Problem problem =
        onlyProblem(
            HEAD
                + "<define-fault-tree name=\"T\">\n  <define-gate name=\"top\">\n       "
                + formula
                + "</define-gate>\n<define-basic-event name=\"x\"><float value=\"0.5\"/>"
                + "</define-basic-event></define-fault-tree></opsa-mef>");
    assertThat(problem.id()).isEqualTo(id);
    assertThat(problem.message()).contains(message);
    assertThat(problem.wayOut()).isPresent();
    boolean cycle = id.equals("cycle");
    assertThat(problem.where().orElseThrow().line()).isEqualTo(cycle ? 4 : 5);
    assertThat(problem.where().orElseThrow().column()).isEqualTo(cycle ? 22 : column);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {
        "<float value=\"1.5\"/>|bad-number|a probability must be in [0, 1]: 1.5",
        "<float value=\"high\"/>|bad-number|value of 'float' must be a number: high",
        "<float value=\"NaN\"/>|bad-number|value of 'float' must be a number: NaN",
        "<float value=\"0x1p-3\"/>|bad-number|value of 'float' must be a number: 0x1p-3",
        "<float/>|bad-number|value of 'float' must be a number",
        "<lognormal-deviate><float value=\"1\"/></lognormal-deviate>|not-taken|expression"
            + " 'lognormal-deviate' is not read",
        "<parameter name=\"q\"/>|not-defined|parameter 'q' is not defined",
        "<parameter name=\"loop\"/>|cycle|parameter 'loop' is made of itself",
        "<exponential><float value=\"1\"/></exponential>|not-of-the-format|'exponential' must have"
            + " a rate and a time",
        "<exponential><float value=\"-1\"/><float value=\"1\"/></exponential>|bad-number|rate and"
            + " time must not be negative",
        "<exponential><float value=\"1\"/><system-mission-time/></exponential>|no-mission-time|asks"
            + " for the mission time",
        "``|not-of-the-format|basic-event 'x' has no probability",
      })
  void wrongProbability_isTold(String value, String id, String message) {
    Problem problem =
        onlyProblem(
            HEAD
                + "<define-fault-tree name=\"T\"><define-gate name=\"g\"><or><event name=\"x\"/>"
                + "</or></define-gate>\n<define-basic-event name=\"x\">"
                + value
                + "</define-basic-event><define-parameter name=\"loop\"><parameter name=\"loop\"/>"
                + "</define-parameter></define-fault-tree></opsa-mef>");
    assertThat(problem.id()).isEqualTo(id);
    assertThat(problem.message()).contains(message);
    assertThat(problem.wayOut()).isPresent();
    assertThat(problem.where().orElseThrow().line()).isEqualTo(4);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {
        "<opsa-mef></opsa-mef>|not-of-the-format|the model has no fault tree",
        "<html></html>|not-of-the-format|begins with <html>",
        "<opsa-mef><define-event-tree name=\"e\"/><define-fault-tree name=\"T\"/>"
            + "</opsa-mef>|not-taken|'define-event-tree' is not read",
        "<opsa-mef><define-fault-tree name=\"T\"><define-CCF-group name=\"c\"/>"
            + "</define-fault-tree></opsa-mef>|not-taken|'define-CCF-group' is not read",
        "<opsa-mef><define-fault-tree name=\"T\"><gate/></define-fault-tree></opsa-mef>"
            + "|not-of-the-format|element 'gate' is not expected here",
        "<opsa-mef><define-fault-tree/></opsa-mef>|not-of-the-format|'define-fault-tree' has no"
            + " name",
        "<opsa-mef><define-fault-tree name=\"a b\"/></opsa-mef>|bad-name|'a b' is no name",
        "<opsa-mef><define-fault-tree name=\"T\"><define-component name=\"c\" role=\"own\"/>"
            + "</define-fault-tree></opsa-mef>|not-of-the-format|role must be public or private:"
            + " own",
        "<opsa-mef><define-fault-tree name=\"T\"><define-house-event name=\"h\"/>"
            + "<define-house-event name=\"h\"/></define-fault-tree></opsa-mef>"
            + "|defined-twice|'h' is defined twice; first in line 1",
        "<opsa-mef><define-fault-tree name=\"T\"><define-house-event name=\"h\">"
            + "<constant value=\"maybe\"/></define-house-event></define-fault-tree></opsa-mef>"
            + "|not-of-the-format|a house event must be a constant",
        "<opsa-mef>|not-xml|here the file stops being well-formed XML",
        "<opsa-mef a=1/>|not-xml|here the file stops being well-formed XML",
        "no xml at all|not-xml|here the file stops being well-formed XML",
        "<opsa-mef>&nbsp;</opsa-mef>|not-xml|nbsp",
        "<opsa-mef><!-- <a> --><label><![CDATA[<b>]]></label><c d='>'/><define-fault-tree name=\"T\"/>"
            + "</opsa-mef>"
            + "|not-of-the-format|element 'c' is not expected here",
        "` `|empty-file|the file is empty",
      })
  void wrongModel_isTold(String text, String id, String message) {
    Problem problem = onlyProblem(text);
    assertThat(problem.id()).isEqualTo(id);
    assertThat(problem.message()).contains(message);
  }

  /** Attacks by XML: another file, growth without end, a document type at all. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "<!DOCTYPE opsa-mef [<!ENTITY x SYSTEM \"file:///etc/passwd\">]>\n<opsa-mef>&x;</opsa-mef>",
        "<!DOCTYPE opsa-mef SYSTEM \"file:///etc/passwd\">\n<opsa-mef/>",
        "<!DOCTYPE opsa-mef [<!ENTITY % p SYSTEM \"file:///etc/passwd\"> %p;]>\n<opsa-mef/>",
        "<!DOCTYPE l [<!ENTITY a \"ha\"><!ENTITY b \"&a;&a;&a;&a;\"><!ENTITY c \"&b;&b;&b;&b;\">"
            + "]>\n<opsa-mef>&c;</opsa-mef>",
      })
  void documentType_isRefused(String text) {
    Problem problem = onlyProblem("<?xml version=\"1.0\"?>\n" + text);
    assertThat(problem.id()).isEqualTo("doctype");
    assertThat(problem.where().orElseThrow().line()).isEqualTo(2);
    assertThat(problem.message()).doesNotContain("root:");
  }

  @Test
  void deepAndHugeFiles_areRefused() {
    String deep = HEAD + "<define-fault-tree name=\"T\"><define-gate name=\"g\">";
    assertThat(onlyProblem(deep + "<not>".repeat(100_000)).id()).isEqualTo("too-deep");
    String many = "<event name=\"x\"/>".repeat(XmlElement.MOST_ELEMENTS);
    assertThat(onlyProblem(deep + "<or>" + many).id()).isEqualTo("too-many-nodes");
  }

  /** As deep as is allowed, and read without harm. */
  @Test
  void formulaOfTheGreatestDepth_isRead() {
    int depth = XmlElement.MOST_DEPTH - 4;
    FaultTree tree =
        read(
            HEAD
                + "<define-fault-tree name=\"T\"><define-gate name=\"g\">"
                + "<not>".repeat(depth)
                + "<event name=\"x\"/>"
                + "</not>".repeat(depth)
                + "</define-gate><define-basic-event name=\"x\"><float value=\"0.5\"/>"
                + "</define-basic-event></define-fault-tree></opsa-mef>",
            OptionalDouble.empty());
    assertThat(tree.nodes()).hasSize(2);
  }

  /** Places stay right behind the buffers of the parser. */
  @Test
  void placeFarIntoAFile_isRight() {
    StringBuilder text = new StringBuilder(HEAD + "<define-fault-tree name=\"T\">\n");
    for (int i = 0; i < 20_000; i++) {
      text.append("<define-basic-event name=\"e").append(i);
      text.append("\"><label>\u00fcber</label><float value=\"0.5\"/></define-basic-event>\n");
    }
    text.append("<define-gate name=\"g\"><or><event name=\"e1\"/><event name=\"eX\"/></or>");
    text.append("</define-gate></define-fault-tree></opsa-mef>");
    Problem problem = onlyProblem(text.toString());
    assertThat(problem.where().orElseThrow().line()).isEqualTo(20_004);
    assertThat(problem.where().orElseThrow().column()).isEqualTo(58);
    assertThat(problem.where().orElseThrow().length()).isEqualTo(2);
  }

  @Test
  void report_showsTheLineAndTheWayOut() {
    Reading<FaultTree> reading =
        OpenPsa.read(
            ExchangeText.of(
                "pump.xml",
                HEAD
                    + "<define-fault-tree name=\"T\">\n"
                    + "  <define-gate name=\"top\"><or><event name=\"pmup\"/></or></define-gate>\n"
                    + "  <define-basic-event name=\"pump\"><float value=\"0.1\"/></define-basic-event>\n"
                    + "</define-fault-tree>\n</opsa-mef>\n"),
            OptionalDouble.empty());
    assertThat(reading.report())
        .isEqualTo(
            """
            pump.xml:4:44: error[not-defined]: event 'pmup' is not defined
                4 |   <define-gate name="top"><or><event name="pmup"/></or></define-gate>
                  |                                            ^^^^
               did you mean 'pump'?
            1 error
            """);
  }

  @Test
  void publicNameThatIsHidden_cannotBeWritten() {
    Map<EventName, TreeNode> nodes = new LinkedHashMap<>();
    nodes.put(new EventName("x"), new TreeNode.House("", true));
    nodes.put(new EventName("T.x"), new TreeNode.House("", true));
    nodes.put(new EventName("g"), new TreeNode.Gate("", new Formula.Of(new EventName("x"))));
    assertThatThrownBy(() -> OpenPsa.write(new FaultTree("T", "", nodes)))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("public event must not be hidden where it is referred to: x, by T.x");
  }

  private static FaultTree read(String text, OptionalDouble missionTime) {
    Reading<FaultTree> reading = OpenPsa.read(ExchangeText.of("t.xml", text), missionTime);
    assertThat(reading.report()).isEmpty();
    return ((Reading.Readable<FaultTree>) reading).value();
  }

  private static Problem onlyProblem(String text) {
    Reading<FaultTree> reading =
        OpenPsa.read(ExchangeText.of("t.xml", text), OptionalDouble.empty());
    assertThat(reading).isInstanceOf(Reading.Unreadable.class);
    assertThat(reading.problems()).as(reading.report()).hasSize(1);
    return reading.problems().get(0);
  }
}
