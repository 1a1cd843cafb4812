using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace FoamRules.Exchange.Tests;

/// <summary>The texts in a source file of C#, each as the pattern by which <see cref="Model.Said"/> knows it.</summary>
internal static class SourceWords
{
    /// <summary>The patterns: <c>$"at least {least}"</c> is <c>at least {0}</c>; texts within the braces are told, too.</summary>
    public static IEnumerable<string> Of(string source)
    {
        for (var at = 0; at < source.Length; at++)
        {
            if (source[at] == '/' && source[at + 1] == '/')
            {
                at = source.IndexOf('\n', at);
            }
            else if (source[at] == '\'')
            {
                at = source.IndexOf('\'', at + 2);
            }
            else if (source[at] == '"')
            {
                var inner = new List<string>();
                yield return Text(source, ref at, at > 0 && source[at - 1] == '$', inner);
                foreach (var one in inner)
                {
                    yield return one;
                }
            }
        }
    }

    /// <summary>The texts within calls, whatever stands between their brackets.</summary>
    /// <param name="source">The source.</param>
    /// <param name="call">A call up to its opening bracket.</param>
    public static IEnumerable<string> Within(string source, Regex call) => call.Matches(source).SelectMany(found => Of(source[found.Index..End(source, found.Index + found.Length)]));

    private static int End(string source, int at)
    {
        for (var depth = 1; depth > 0; at++)
        {
            if (source[at] == '"')
            {
                Text(source, ref at, source[at - 1] == '$', []);
            }
            else
            {
                depth += source[at] == '(' ? 1 : source[at] == ')' ? -1 : 0;
            }
        }

        return at;
    }

    // From the opening mark to the closing one, on which it ends.
    private static string Text(string source, ref int at, bool hasPlaces, List<string> inner)
    {
        var (pattern, places) = (new StringBuilder(), 0);
        for (at++; source[at] != '"'; at++)
        {
            if (hasPlaces && source[at] == '{')
            {
                pattern.Append(CultureInfo.InvariantCulture, $"{{{places++}}}");
                Place(source, ref at, inner);
            }
            else
            {
                pattern.Append(source[at] == '\\' ? source[++at] : source[at]);
            }
        }

        return pattern.ToString();
    }

    private static void Place(string source, ref int at, List<string> inner)
    {
        for (var depth = 1; depth > 0;)
        {
            at++;
            if (source[at] == '"')
            {
                var more = new List<string>();
                inner.Add(Text(source, ref at, source[at - 1] == '$', more));
                inner.AddRange(more);
            }
            else
            {
                depth += source[at] == '{' ? 1 : source[at] == '}' ? -1 : 0;
            }
        }
    }
}
