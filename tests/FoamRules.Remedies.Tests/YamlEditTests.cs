using FoamRules.Text;

namespace FoamRules.Remedies.Tests;

/// <summary>Changing single values of a text and nothing else.</summary>
public sealed class YamlEditTests
{
    [Theory]
    [InlineData("a: 1 # one\nb: 2\n", "a", "3", "a: 3 # one\nb: 2\n")]
    [InlineData("a: { x: { inches: 4 }, y: 1 } # c\n", "a.x", "{ inches: 2 }", "a: { x: { inches: 2 }, y: 1 } # c\n")]
    [InlineData("a:\n  x:\n    inches: 4 # four\n  y: 1\n", "a.x", "{ inches: 2 }", "a:\n  x:\n    { inches: 2 } # four\n  y: 1\n")]
    [InlineData("a: { x: 1 }\n", "a.y", "2", "a: { x: 1, y: 2 }\n")]
    [InlineData("a: {}\n", "a.y", "2", "a: { y: 2 }\n")]
    [InlineData("a:\n  x: 1 # one\n# two\nb: 2\n", "a.y", "2", "a:\n  x: 1 # one\n  y: 2\n# two\nb: 2\n")]
    [InlineData("a:\n  x: 1", "a.y.z", "2", "a:\n  x: 1\n  y: { z: 2 }")]
    [InlineData("a:\n  x:\nb: 2\n", "a.x", "2", "a:\n  x: 2\nb: 2\n")]
    [InlineData("a: []\n", "a", "[{ x: 1 }]", "a: [{ x: 1 }]\n")]
    [InlineData("l:\n  - { x: 1 } # one\n  # two\n  - { x: 2 } # three\nb: 2\n", "l", "[{ x: 3 }, { x: 4 }, { x: 5 }]", "l:\n  # one\n  # two\n  - { x: 3 }\n  - { x: 4 }\n  - { x: 5 } # three\nb: 2\n")]
    [InlineData("l:\n  - id: p\n    x: 1\n  - id: q\n    x: 2\n", "l[q].x", "3", "l:\n  - id: p\n    x: 1\n  - id: q\n    x: 3\n")]
    [InlineData("l:\n- x: 1\n- x: 2\n", "l[1].x", "3", "l:\n- x: 1\n- x: 3\n")]
    [InlineData("a: 'it''s'\r\nb: 2 # two\r\n", "b", "3", "a: 'it''s'\r\nb: 3 # two\r\n")]
    [InlineData("t: true # so\n", "t", "null", "t: null # so\n")]
    public void A_value_changes_and_everything_else_stays(string text, string path, string value, string expected) => Assert.Equal(expected, YamlEdit.Set(text, path, value));

    [Theory]
    [InlineData("a: 1\n", "a.b")]
    [InlineData("l: [{ id: p }]\n", "l[q].x")]
    public void A_path_that_leads_nowhere_is_refused(string text, string path) => Assert.Throws<ArgumentException>(() => YamlEdit.Set(text, path, "1"));
}
