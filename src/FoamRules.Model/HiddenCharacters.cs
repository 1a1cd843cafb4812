namespace FoamRules.Model;

/// <summary>
/// Characters that nobody sees and that change how others look: a terminal's commands, and marks that turn the direction of what
/// follows. With them a plan's name could wipe the word STOP off a screen.
/// </summary>
public static class HiddenCharacters
{
    /// <summary>True for a control character that is neither a tab nor a line break, and for a mark that turns the direction.</summary>
    public static bool IsOne(char character) =>
        (char.IsControl(character) && character is not ('\t' or '\n' or '\r')) || character is (>= '\u202A' and <= '\u202E') or (>= '\u2066' and <= '\u2069');

    /// <summary>The first of them in a text; null where it has none.</summary>
    public static char? FirstOf(string text)
    {
        foreach (var character in text)
        {
            if (IsOne(character))
            {
                return character;
            }
        }

        return null;
    }

    /// <summary>The text with each of them replaced by a sign that shows.</summary>
    public static string Shown(string text) => FirstOf(text) is not null ? string.Concat(text.Select(character => IsOne(character) ? '\uFFFD' : character)) : text;
}
