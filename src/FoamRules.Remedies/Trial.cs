using FoamRules.Exchange;
using FoamRules.Exchange.Editing;
using FoamRules.Model;
using FoamRules.Remedies.Proposing;
using FoamRules.Rules.Engine;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Remedies;

/// <summary>A plan with some changes, checked.</summary>
/// <param name="Message">The plan's message; it is never changed.</param>
/// <param name="Plan">The plan's facts.</param>
/// <param name="Report">The report.</param>
internal sealed record Trial(Contract.Plan Message, Plan Plan, Report Report);

/// <summary>Tries changes on copies of a plan. It counts what it tries, so that a plan with a thousand findings still gets an answer.</summary>
/// <param name="engine">The engine.</param>
/// <param name="options">What the caller asks besides.</param>
/// <param name="most">The greatest number of checks.</param>
/// <param name="cancellation">Gives up where the caller does.</param>
internal sealed class Tryer(CheckEngine engine, CheckOptions options, int most, CancellationToken cancellation)
{
    private readonly CheckOptions _options = options with { Pictures = false, Purpose = CheckPurpose.Trial };
    private int _left = most;

    /// <summary>The plan with the edits, checked; null where it cannot be read, or where enough was tried.</summary>
    public Trial? Try(Contract.Plan plan, IReadOnlyList<Edit> edits)
    {
        if (_left-- <= 0)
        {
            return null;
        }

        cancellation.ThrowIfCancellationRequested();
        var message = plan.Clone();
        foreach (var edit in edits)
        {
            if (PlanSpot.Find(message, edit.Path) is not { } spot)
            {
                return null;
            }

            spot.Set(edit.Value);
        }

        var read = PlanReader.ReadMessage(message, new ReadOptions(message.JudgedAt.ToDateTimeOffset()));
        return read.Plan is { } facts && engine.Check(facts, _options with { PlanDigest = read.Digest }, cancellation).Report is { } report
            ? new Trial(message, facts, report)
            : null;
    }

    /// <summary>The edits of a proposal with the fields that fall with them; null where it would change what is no choice.</summary>
    public static IReadOnlyList<Edit>? Whole(Contract.Plan plan, Proposal proposal)
    {
        var spots = proposal.Edits.Select(edit => PlanSpot.Find(plan, edit.Path)).ToList();
        return spots.TrueForAll(spot => spot is { IsChoice: true })
            ? [.. proposal.Edits, .. spots.SelectMany(spot => spot!.FallsWithIt()).Distinct().Except(proposal.Edits.Select(edit => edit.Path)).Select(path => new Edit(path, null))]
            : null;
    }
}
