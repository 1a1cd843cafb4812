using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using FoamRules.Records.Store;

namespace FoamRules.Records.Log;

/// <summary>
/// The hash of an entry: SHA-256 over the line <c>foamrules-entry-1</c> and then each field as the number of its bytes, a colon,
/// the bytes and a line feed, so that no two entries give the same bytes. The hash of the entry before is one of the fields.
/// </summary>
internal static class EntryHash
{
    /// <summary>What stands as the hash before the first entry.</summary>
    public static string BeforeTheFirst { get; } = new('0', 64);

    public static string Of(EntryRow entry)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        hash.AppendData("foamrules-entry-1\n"u8);
        Add(Text(entry.Sequence));
        Add(Text(entry.AtMicroseconds));
        Add(Encoding.UTF8.GetBytes(entry.Actor));
        Add(Text(entry.Role));
        Add(Text(entry.Identity));
        Add(Text(entry.Kind));
        Add(Encoding.UTF8.GetBytes(entry.ReviewId));
        Add(Encoding.UTF8.GetBytes(entry.IdempotencyKey));
        Add(Encoding.UTF8.GetBytes(entry.RequestDigest));
        Add(entry.Act);
        Add(Encoding.UTF8.GetBytes(entry.PreviousHash));
        return Convert.ToHexStringLower(hash.GetHashAndReset());

        void Add(byte[] field)
        {
            hash.AppendData(Encoding.UTF8.GetBytes(field.Length.ToString(CultureInfo.InvariantCulture) + ":"));
            hash.AppendData(field);
            hash.AppendData("\n"u8);
        }

        static byte[] Text(long number) => Encoding.UTF8.GetBytes(number.ToString(CultureInfo.InvariantCulture));
    }
}
