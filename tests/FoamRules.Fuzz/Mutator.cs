namespace FoamRules.Fuzz;

/// <summary>
/// Makes inputs from good ones: bytes turned, cut, doubled and moved, pieces of one put into another, and words put in that
/// readers stumble over. The same seed makes the same inputs.
/// </summary>
/// <param name="corpus">The good inputs.</param>
/// <param name="words">Words of the format and of what goes wrong in it.</param>
/// <param name="seed">The seed.</param>
public sealed class Mutator(IReadOnlyList<byte[]> corpus, IReadOnlyList<byte[]> words, int seed)
{
    private const int MostBytes = 64 * 1024;
    private readonly Random _random = new(seed);

    /// <summary>The next input.</summary>
    public byte[] Next()
    {
        var input = corpus[_random.Next(corpus.Count)];
        // Mostly a few changes: an input that is wrong all over is refused at the first byte.
        for (var changes = 1 + (int)Math.Min(20, -Math.Log(1 - _random.NextDouble()) * 2); changes > 0; changes--)
        {
            input = Change(input);
        }

        return input.Length <= MostBytes ? input : input[..MostBytes];
    }

    private byte[] Change(byte[] input)
    {
        var at = _random.Next(input.Length + 1);
        var length = Math.Min(input.Length - at, 1 + _random.Next(1 << _random.Next(1, 8)));
        var before = input.AsSpan(0, at);
        var piece = input.AsSpan(at, length);
        var after = input.AsSpan(at + length);
        switch (_random.Next(9))
        {
            case 0:
                return [.. before, .. after];
            case 1:
                return [.. before, .. piece, .. piece, .. after];
            case 2:
                return [.. before, .. words[_random.Next(words.Count)], .. after];
            case 3:
                return [.. before, .. words[_random.Next(words.Count)], .. piece, .. after];
            case 4:
                var other = corpus[_random.Next(corpus.Count)];
                var from = _random.Next(other.Length + 1);
                return [.. before, .. other.AsSpan(from, Math.Min(other.Length - from, 1 + _random.Next(200))), .. after];
            case 5:
                return [.. before, (byte)_random.Next(256), .. piece, .. after];
            case 6:
                return input[..at];
            default:
                if (length == 0)
                {
                    return input;
                }

                var copy = input.ToArray();
                copy[at] ^= (byte)(1 << _random.Next(8));
                return copy;
        }
    }
}
