using System.Text;
using System.Text.Json;
using System.Xml.Linq;
using FoamRules.Testing;

namespace FoamRules.EndToEnd.Tests;

/// <summary>The packages that stand beside the program when it is published are listed, each with its licence, and no other licence comes in unseen.</summary>
public sealed class ShippedPackagesTests
{
    // Names of the SPDX licence list; each lets the program be given on under a licence of its own.
    private static readonly string[] Accepted = ["Apache-2.0", "BSD-3-Clause", "MIT", "MIT-0", "PostgreSQL"];

    [Fact]
    public void Every_package_that_ships_is_listed_with_a_licence_that_allows_it()
    {
        using var shipped = JsonDocument.Parse(File.ReadAllText(Path.ChangeExtension(Programs.Cli, ".deps.json")));
        var packages = shipped.RootElement.GetProperty("libraries").EnumerateObject().Where(library => library.Value.GetProperty("type").GetString() == "package")
            .Select(library => library.Name.Split('/')).OrderBy(library => library[0], StringComparer.OrdinalIgnoreCase).ToList();
        Assert.NotEmpty(packages);
        var licences = packages.ConvertAll(package => (Name: package[0], Version: package[1], Licence: LicenceOf(package[0], package[1])));
        Assert.All(licences, package => Assert.Contains(package.Licence, Accepted));

        var document = new StringBuilder($"""
            # Packages that ship

            What stands beside `foamrules` when it is published: {packages.Count} packages. The versions asked for stand in `Directory.Packages.props`,
            each with those that it brings and their hashes in `packages.lock.json` of each project. A test writes this page
            (`UPDATE_GOLDENS=1 dotnet run --project tests/FoamRules.EndToEnd.Tests -- -class "*ShippedPackagesTests"`).

            | package | version | licence |
            |---|---|---|

            """);
        foreach (var (name, version, licence) in licences)
        {
            document.Append(System.Globalization.CultureInfo.InvariantCulture, $"| {name} | {version} | {licence} |\n");
        }

        Assert.Equal(document.ToString(), Generated.Read(Repository.PathOf("docs", "packages.md"), document.ToString()));
    }

    private static string LicenceOf(string name, string version)
    {
        var root = Environment.GetEnvironmentVariable("NUGET_PACKAGES") ?? Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.UserProfile), ".nuget", "packages");
        var file = Path.Combine(root, name.ToLowerInvariant(), version.ToLowerInvariant(), $"{name.ToLowerInvariant()}.nuspec");
        var licence = XDocument.Load(file).Descendants().FirstOrDefault(element => element.Name.LocalName == "license");
        return licence?.Attribute("type")?.Value == "expression" ? licence.Value : $"not named ({licence?.Value})";
    }
}
