using System.Collections.Concurrent;

namespace FoamRules.Rules.Judging;

/// <summary>What a pure calculation has answered before: a remembered result is the result.</summary>
/// <typeparam name="TQuestion">Its inputs, compared by value.</typeparam>
/// <typeparam name="TAnswer">Its result.</typeparam>
/// <param name="work">The calculation.</param>
internal sealed class Remembered<TQuestion, TAnswer>(Func<TQuestion, TAnswer> work)
    where TQuestion : notnull
{
    // A result with its steps is a few kilobytes: bounded, so that a service that runs for months does not grow.
    private const int Most = 1024;
    private readonly ConcurrentDictionary<TQuestion, TAnswer> _known = new();

    public TAnswer Of(TQuestion question)
    {
        if (_known.TryGetValue(question, out var known))
        {
            return known;
        }

        if (_known.Count >= Most)
        {
            _known.Clear();
        }

        return _known[question] = work(question);
    }
}
