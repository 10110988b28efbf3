using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using Npgsql;
using Nursery.Data;
using Nursery.Domain.Refusals;

namespace Nursery.Application.Transactions;

/// <summary>Runs a piece of work in one database transaction, again from the start when PostgreSQL asks for it.</summary>
internal static class Transaction
{
    private const int Attempts = 8;

    public static async Task<TResult> RunAsync<TResult>(
        this IDbContextFactory<NurseryDbContext> databases,
        Func<NurseryDbContext, Task<TResult>> work,
        CancellationToken cancellation)
    {
        for (var attempt = 1; ; attempt++)
        {
            try
            {
                await using var database = await databases.CreateDbContextAsync(cancellation);
                await using var transaction = await database.Database.BeginTransactionAsync(cancellation);
                var result = await work(database);
                await transaction.CommitAsync(cancellation);
                return result;
            }
            catch (Exception failure) when (attempt < Attempts && MayPassNextTime(failure))
            {
                // Jitter, or the same two transactions meet again.
                await Task.Delay(RandomNumberGenerator.GetInt32(5, 20 * attempt), cancellation);
            }
            catch (Exception failure) when (failure.PostgresFailure()?.SqlState is
                PostgresErrorCodes.CharacterNotInRepertoire or PostgresErrorCodes.UntranslatableCharacter)
            {
                throw new Malformed("A text has a NUL character in it, which cannot be stored");
            }
        }
    }

    public static PostgresException? PostgresFailure(this Exception failure) =>
        failure as PostgresException ?? failure.InnerException as PostgresException;

    /// <summary>Deadlock, serialization failure, or a key that a twin of this request wrote a moment earlier.</summary>
    private static bool MayPassNextTime(Exception failure) =>
        failure.PostgresFailure()?.SqlState is
            PostgresErrorCodes.DeadlockDetected or
            PostgresErrorCodes.SerializationFailure or
            PostgresErrorCodes.UniqueViolation;
}
