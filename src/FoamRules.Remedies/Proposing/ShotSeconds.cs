using FoamRules.Model;
using UnitsNet;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Remedies.Proposing;

/// <summary>The seconds a shot that today's numbers say; where one shot is too long or rises too high, the same foam in more shots, with the wait between them.</summary>
internal sealed class ShotSeconds : IProposer
{
    private const int MoreShots = 3;

    /// <inheritdoc/>
    public IEnumerable<Proposal> Propose(Situation situation)
    {
        if (FillOf.Numbers(situation) is not { } numbers || situation.WorkMessage?.CavityFill is not { Shots.Count: > 0 } fill || fill.Shots.Any(shot => shot.TriggerTime is null))
        {
            yield break;
        }

        var spaces = numbers.Spaces.Value;
        var path = $"{situation.WorkPath}.cavity_fill.shots";
        for (var more = 0; more <= MoreShots; more++)
        {
            var shots = more == 0 ? [.. fill.Shots.Select(shot => shot.Clone())] : Spread(situation, fill, spaces.Length, more);
            // Today's numbers of a plan with so many shots.
            if ((more == 0 ? situation.Report : situation.Check(new Proposal(path, shots))) is not { } report)
            {
                continue;
            }

            var known = true;
            foreach (var space in spaces)
            {
                var number = report.Numbers.FirstOrDefault(one => one.Subject == situation.Finding.Subject && one.Compartment == space.Number);
                known &= number?.Aim is not null;
                foreach (var shot in number?.Aim is null ? [] : shots.Where(shot => spaces.Length == 1 || shot.Compartment == space.Number))
                {
                    shot.TriggerTime = new Contract.Duration { Seconds = Seconds(situation, number!) };
                }
            }

            if (known)
            {
                yield return new Proposal(path, shots);
            }
        }
    }

    // As many more into each space; later ones come after the wait.
    private static List<Contract.Shot> Spread(Situation situation, Contract.CavityFill fill, int spaces, int more)
    {
        var wait = Wait(situation);
        var shots = new List<Contract.Shot>();
        var most = Enumerable.Range(1, spaces).Max(space => Into(space).Count) + more;
        for (var pour = 0; pour < most; pour++)
        {
            foreach (var space in Enumerable.Range(1, spaces).Where(space => Into(space).Count is > 0 and var count && pour < count + more))
            {
                var like = Into(space)[Math.Min(pour, Into(space).Count - 1)];
                var shot = new Contract.Shot { TriggerTime = like.TriggerTime.Clone() };
                if (like.HasCompartment)
                {
                    shot.Compartment = like.Compartment;
                }

                if (pour > 0 && wait is not null)
                {
                    shot.WaitBefore = wait.Clone();
                }

                shots.Add(shot);
            }
        }

        return shots;

        List<Contract.Shot> Into(int space) => [.. fill.Shots.Where(shot => spaces == 1 || shot.Compartment == space)];
    }

    // What the data sheet asks, and what the plan keeps already where that is longer.
    private static Contract.Duration? Wait(Situation situation)
    {
        var waits = (situation.Work!.CavityFill!.Shots.Select(shot => shot.WaitBefore).Append(situation.Work.CavityFill.WaitBetweenPours).Append(situation.Sheet?.WaitBetweenPours)).OfType<Duration>().Order().ToList();
        return waits.Count == 0 ? null : new Contract.Duration { Minutes = Math.Round(waits[^1].Minutes, 6) };
    }

    // To a figure of the watch, where that still lies between the ends.
    private static double Seconds(Situation situation, Number number)
    {
        var aim = ((Duration)number.Aim!.Quantity!).Seconds;
        var (low, high) = ((number.Low?.Quantity as Duration?)?.Seconds ?? aim, (number.High?.Quantity as Duration?)?.Seconds ?? aim);
        var steps = situation.Figures.Steps("seconds", quantity => quantity is Duration time ? time.Seconds : null);
        return steps.Select(step => Math.Round(Math.Round(aim / step) * step, 9)).Where(figure => figure >= low && figure <= high).Cast<double?>().FirstOrDefault() ?? Math.Round(aim, 3);
    }
}
