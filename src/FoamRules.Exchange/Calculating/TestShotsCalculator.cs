using System.Collections.Immutable;
using FoamRules.Calculations;
using FoamRules.Pictures;
using UnitsNet;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Exchange.Calculating;

/// <summary>From timed test shots to the seconds for a fill.</summary>
internal static class TestShotsCalculator
{
    public static Contract.TestShotsResponse Run(Contract.TestShotsRequest request, Working working) =>
        request.QuestionCase == Contract.TestShotsRequest.QuestionOneofCase.FirstShot
            ? new Contract.TestShotsResponse { FirstShot = FirstShot(request.FirstShot, working) }
            : new Contract.TestShotsResponse
            {
                SecondsForFill = Seconds(request.SecondsForFill, working),
                Picture = DrawnPicture.Of(request.Picture, units => CalculationPicture.TestShots(Shots(request.SecondsForFill), FillOf(request.SecondsForFill.Wanted), Settings(request.SecondsForFill), units)),
            };

    private static Contract.Duration FirstShot(Contract.FirstShot asked, Working working) =>
        working.Take(TestShots.FirstShot(asked.LeastFill.Quantity(), asked.HighestOutput.Quantity(), asked.Share.Quantity())).Message();

    private static Contract.ShotSeconds Seconds(Contract.SecondsForFill asked, Working working)
    {
        var (settings, shots) = (Settings(asked), Shots(asked));
        var (wanted, spread) = (FillOf(asked.Wanted), asked.DeclaredSpread?.Quantity());
        var time = working.Take(asked.Seen is null
            ? TestShots.TimeFor(wanted, shots, settings, spread)
            : TestShots.TopUp(wanted, FillOf(asked.Seen), shots, settings, spread));
        return Message(time);
    }

    private static TestShotSettings Settings(Contract.SecondsForFill asked) => new(
        asked.LeastShots, asked.LeastShotsWithDeclaredSpread, asked.Confidence.Quantity(), asked.BeyondTested.Quantity(), asked.WidestHalfWidth.Quantity());

    private static ImmutableArray<TestShot> Shots(Contract.SecondsForFill asked) =>
        [.. asked.Shots.Select(shot => new TestShot(shot.TriggerTime.Quantity(), FillOf(shot.Fill), shot.Overflowed, shot.HasWeight ? shot.Weight : 1))];

    private static IQuantity FillOf(Contract.Fill fill) => fill.MeasuredInCase switch
    {
        Contract.Fill.MeasuredInOneofCase.Height => fill.Height.Quantity(),
        Contract.Fill.MeasuredInOneofCase.Volume => fill.Volume.Quantity(),
        _ => fill.Mass.Quantity(),
    };

    private static Contract.ShotSeconds Message(ShotTime time)
    {
        var line = time.Calibration;
        var message = new Contract.ShotSeconds
        {
            Low = time.Low.Message(),
            Aim = time.Aim.Message(),
            High = time.High.Message(),
            HalfWidth = time.HalfWidth.Message(),
            HalfWidthShare = time.HalfWidthShare.Message(),
            NarrowEnough = time.NarrowEnough,
            FiellerG = time.G,
            SpreadIsDeclared = time.SpreadIsDeclared,
            FillASecond = ReportMapper.MeasureMessage(Model.Measure.Of(line.SlopePerSecond)),
            Lag = line.Lag.Message(),
            Spread = line.ResidualSpread is { } spread ? ReportMapper.MeasureMessage(Model.Measure.Of(spread)) : null,
            ShotsUsed = line.ShotsUsed,
            ShotsOverflowed = line.ShotsOverflowed,
            Outliers = { line.Outliers.Select(outlier => new Contract.OutlierShot { Shot = outlier.Shot + 1, StudentizedResidual = outlier.StudentizedResidual }) },
        };
        if (time.MoreShotsToHalve is { } toHalve)
        {
            message.MoreShotsToHalve = toHalve;
        }

        if (time.MoreShotsToNarrowEnough is { } toNarrow)
        {
            message.MoreShotsToNarrowEnough = toNarrow;
        }

        return message;
    }
}
