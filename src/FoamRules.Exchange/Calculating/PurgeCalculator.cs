using System.Collections.Immutable;
using FoamRules.Calculations;
using FoamRules.Pictures;
using UnitsNet;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Exchange.Calculating;

/// <summary>How long to ventilate before re-entry; the answer may be never.</summary>
internal static class PurgeCalculator
{
    public static Contract.PurgeResponse Run(Contract.PurgeRequest request, Working working)
    {
        var purge = Case(request, working);
        var response = new Contract.PurgeResponse();
        switch (working.Take(Purge.LastTimeAbove(purge, request.Limit.Quantity())))
        {
            case PurgeTime.StaysBelowFrom below:
                response.StaysBelowFrom = below.Time.Message();
                Decide(request, below.Time, response);
                break;
            case PurgeTime.Never never:
                response.Never = new Contract.Never { Why = never.Why };
                response.DecidedBy = Concentration;
                break;
        }

        foreach (var at in request.ReadAt)
        {
            var reading = Working.ValueOf(Purge.ConcentrationAfter(purge, at.Quantity()));
            response.Readings.Add(new Contract.ConcentrationReading { At = at, Concentration = reading.Message() });
        }

        response.Picture = DrawnPicture.Of(request.Picture, _ => CalculationPicture.Concentration(purge, request.Limit.Quantity(), Waits(request), Shown(request, response)));
        return response;
    }

    private static readonly Duration ShownWithoutEnd = Duration.FromDays(2), LeastShown = Duration.FromHours(1);

    private static List<(Duration After, string Words)> Waits(Contract.PurgeRequest request) =>
        [.. request.OtherWaits.Select(other => (other.Wait.Quantity(), other.Name))];

    private static Duration Shown(Contract.PurgeRequest request, Contract.PurgeResponse response)
    {
        var longest = Waits(request).Select(wait => wait.After).Append(response.StaysBelowFrom?.Quantity() ?? ShownWithoutEnd).Append(LeastShown).MaxBy(time => time.Seconds);
        return longest * 1.2;
    }

    private const string Concentration = "concentration";

    private static void Decide(Contract.PurgeRequest request, Duration byConcentration, Contract.PurgeResponse response)
    {
        var (longest, name) = request.OtherWaits.Select(other => (Wait: other.Wait.Quantity(), other.Name))
            .Prepend((Wait: byConcentration, Name: Concentration))
            .MaxBy(wait => wait.Wait.Seconds);
        (response.Wait, response.DecidedBy) = (longest.Message(), name);
    }

    private static PurgeCase Case(Contract.PurgeRequest request, Working working)
    {
        var room = request.Room.Quantity();
        EmissionSource source = request.Source.KindCase switch
        {
            Contract.EmissionSource.KindOneofCase.Constant => new EmissionSource.Constant(request.Source.Constant.Quantity()),
            Contract.EmissionSource.KindOneofCase.Dying => new EmissionSource.Dying(request.Source.Dying.Initial.Quantity(), request.Source.Dying.Decay.Quantity()),
            _ => new EmissionSource.None(),
        };
        ImmutableArray<VentilationStage> stages = [.. request.Stages.Select(stage => new VentilationStage(
            stage.AirCase == Contract.VentilationStage.AirOneofCase.AirFlow ? working.Take(Purge.AirChanges(stage.AirFlow.Quantity(), room)) : stage.AirChanges.Quantity(),
            stage.Length?.Quantity()))];
        return new PurgeCase(request.Initial.Quantity(), source, room, request.MixingFactor, stages);
    }
}
