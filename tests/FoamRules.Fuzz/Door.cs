using System.Text;
using FoamRules.Testing;

namespace FoamRules.Fuzz;

/// <summary>A door by which texts or bytes from outside come in.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Corpus">Good inputs.</param>
/// <param name="Words">Words of its format.</param>
/// <param name="Enter">Brings one input in. It may refuse it as it says it does; whatever else it throws is a fault. True: it was taken.</param>
public sealed record Door(string Name, Lazy<IReadOnlyList<byte[]>> Corpus, IReadOnlyList<byte[]> Words, Func<byte[], bool> Enter)
{
    /// <summary>Inputs that were not answered once, and are now: they are tried by every run of the tests.</summary>
    public IEnumerable<(string File, byte[] Input)> Kept()
    {
        var folder = Repository.PathOf("tests", "FoamRules.Fuzz", "Kept", Name);
        return Directory.Exists(folder) ? Directory.EnumerateFiles(folder).Order(StringComparer.Ordinal).Select(file => (file, File.ReadAllBytes(file))) : [];
    }

    /// <summary>Texts as UTF-8.</summary>
    public static IReadOnlyList<byte[]> Bytes(IEnumerable<string> texts) => [.. texts.Select(Encoding.UTF8.GetBytes)];
}
