namespace FoamRules.Records.Store;

/// <summary>Instants as the stores keep them: whole microseconds.</summary>
internal static class Times
{
    public static long Microseconds(DateTimeOffset at) => (at.UtcTicks - DateTimeOffset.UnixEpoch.UtcTicks) / TimeSpan.TicksPerMicrosecond;

    public static DateTimeOffset Of(long microseconds) => DateTimeOffset.UnixEpoch.AddTicks(microseconds * TimeSpan.TicksPerMicrosecond);
}
