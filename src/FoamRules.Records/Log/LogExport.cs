using FoamRules.Contracts.V1;
using FoamRules.Records.Store;
using Google.Protobuf;
using Google.Protobuf.WellKnownTypes;

namespace FoamRules.Records.Log;

/// <summary>Entries of the log as they are sent.</summary>
public static class LogExport
{
    /// <summary>One entry, as it was written and as it reads. An act that cannot be read is left out; the bytes are there.</summary>
    public static ExportLogResponse Of(EntryRow entry) => new()
    {
        Entry = new LogEntry
        {
            Sequence = entry.Sequence,
            At = Timestamp.FromDateTimeOffset(Times.Of(entry.AtMicroseconds)),
            Actor = entry.Actor,
            Role = (Role)entry.Role,
            Identity = (Identity)entry.Identity,
            Kind = (ActKind)entry.Kind,
            ReviewId = entry.ReviewId,
            IdempotencyKey = entry.IdempotencyKey,
            RequestDigest = entry.RequestDigest,
            Act = ByteString.CopyFrom(entry.Act),
            PreviousHash = entry.PreviousHash,
            Hash = entry.Hash,
        },
        Act = Read(entry.Act),
    };

    private static Act? Read(byte[] act)
    {
        try
        {
            return Act.Parser.ParseFrom(act);
        }
        catch (InvalidProtocolBufferException)
        {
            return null;
        }
    }
}
